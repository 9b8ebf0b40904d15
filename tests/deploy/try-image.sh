#!/usr/bin/env bash
# Starts a built image as it says itself (its user, settings, command and health check), the whole root read-only, /data
# alone writable, without a container engine: asks for health and a lesson, and stops it. Needs root, buildah, curl.
#   buildah bud --format docker -t signed-to-saw . && tests/deploy/try-image.sh signed-to-saw
# STORE: options for every call of buildah, such as "--root FOLDER --runroot FOLDER"
set -euo pipefail
image=${1:?name an image}
port=${PORT:-14400}
read -ra store <<<"${STORE:-}"
b() { buildah "${store[@]}" "$@"; }

container=$(b from --pull-never "$image")
trap 'b rm "$container" >/dev/null' EXIT
root=$(b mount "$container")
said() { b inspect --format "{{range $1}}{{println .}}{{end}}" "$container" | sed '/^$/d'; }
mapfile -t settings < <(said .OCIv1.Config.Env)
mapfile -t command < <(said .OCIv1.Config.Cmd)
mapfile -t health < <(said .Docker.Config.Healthcheck.Test)
user=$(b inspect --format '{{.OCIv1.Config.User}}' "$container")
id=$(chroot "$root" id -u "$user")
[ "${health[0]}" = CMD ]
[ "$id" != 0 ]
echo "image: $(du -sm "$root" | cut -f1) MB, user $user ($id), ${command[*]}"
run=(chroot --userspec "$id:$id" --groups= /run/try-image env -i --chdir=/site "${settings[@]}" "PORT=$port")
export root id port
unshare --mount bash -euo pipefail -s -- "${#run[@]}" "${run[@]}" "${#command[@]}" "${command[@]}" "${health[@]:1}" <<'INSIDE'
take() { taken=("${@:2:$1}"); }
take "$@"; run=("${taken[@]}"); shift $(( $1 + 1 ))
take "$@"; command=("${taken[@]}"); shift $(( $1 + 1 ))
health=("$@")
mkdir -p /run/try-image
mount --make-rprivate /
mount --bind "$root" /run/try-image
mount -o remount,bind,ro /run/try-image
mount -t proc proc /run/try-image/proc
mount --rbind /dev /run/try-image/dev
mount -t tmpfs -o size=512m,mode=0700,uid="$id",gid="$id" tmpfs /run/try-image/data
for place in /site /tmp /var/tmp; do
  if "${run[@]}" touch "$place/written" 2>/dev/null; then echo "$place can be written"; exit 1; fi
done
began=$(date +%s%3N)
"${run[@]}" "${command[@]}" &
site=$!
trap 'kill "$site" 2>/dev/null || true' EXIT
until curl -fsS -o /dev/null "http://127.0.0.1:$port/api/health" 2>/dev/null; do
  kill -0 "$site" 2>/dev/null || { echo "the site ended"; exit 1; }
  sleep 0.1
done
echo "answers after $(( $(date +%s%3N) - began )) ms, $(awk '/VmRSS/ {print $2}' /proc/$site/status) kB of memory"
"${run[@]}" "${health[@]}"
echo "the health check ends with 0"
for path in /api/health /api/ready /lessons/; do
  curl -fsS -o /dev/null -w "$path %{http_code}, %{size_download} bytes\n" "http://127.0.0.1:$port$path"
done
lesson=$(curl -fsS "http://127.0.0.1:$port/lessons/" | grep -o 'href="/lessons/[^"#]*[^"/#][^"#]*"' | head -1 | cut -d'"' -f2)
curl -fsS "http://127.0.0.1:$port$lesson" | grep -o '<h1[^>]*>[^<]*' | head -1
began=$(date +%s%3N)
kill -TERM "$site"
wait "$site"
echo "stopped with 0 after $(( $(date +%s%3N) - began )) ms"
if "${run[@]}" "${health[@]}"; then echo "well although it was stopped"; exit 1; fi
ls -ln /run/try-image/data
INSIDE
