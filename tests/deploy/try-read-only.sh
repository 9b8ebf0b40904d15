#!/usr/bin/env bash
# What the last stage of Containerfile does, by hand, on a machine without a container engine: the built site in
# FOLDER as a user without rights, the whole root read-only, /data alone writable. Needs root and util-linux.
#   tests/deploy/try-read-only.sh FOLDER      FOLDER: npm ci --omit=dev && npm run build was run there
set -euo pipefail
folder=$(realpath "${1:?name the folder of a built site}")
port=${PORT:-14400}
export folder port
exec unshare --mount bash -euo pipefail -c '
  mkdir -p /run/try-site /run/try-data
  mount --make-rprivate /
  mount --bind "$folder" /run/try-site
  mount -t tmpfs -o size=64m,mode=0700,uid=10440,gid=10440 tmpfs /run/try-data
  mount -o remount,bind,ro /run/try-site
  for point in / /tmp /var /home; do
    mount --bind "$point" "$point" 2>/dev/null && mount -o remount,bind,ro "$point" || true
  done
  cd /run/try-site
  run=(setpriv --reuid 10440 --regid 10440 --clear-groups --no-new-privs --bounding-set -all env -i
    HOST=127.0.0.1 PORT="$port" DATA_DIR=/run/try-data LOG_FORMAT=json NO_COLOR=1)
  if "${run[@]}" touch /run/try-site/written 2>/dev/null; then echo "the root can be written"; exit 1; fi
  began=$(date +%s%3N)
  "${run[@]}" node_modules/.bin/node src/cli/start.ts --built &
  site=$!
  until "${run[@]}" node_modules/.bin/node src/deploy/ask-health.ts; do
    kill -0 "$site" 2>/dev/null || { echo "the site ended"; exit 1; }
    sleep 0.2
  done
  echo "healthy after $(( $(date +%s%3N) - began )) ms, $(awk "/VmRSS/ {print \$2}" /proc/$site/status) kB of memory"
  kill -TERM "$site"
  wait "$site" && echo "stopped with 0"
  ls -la /run/try-data
'
