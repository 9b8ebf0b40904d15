import type { Tool } from '../work/parts.ts';

/** Each tool in outline, drawn as it lies in the tray. */
const OUTLINES: Record<Tool | 'lamp', string> = {
  hand: 'M11 29V15.5a2 2 0 0 1 4 0V9.5a2 2 0 0 1 4 0V8a2 2 0 0 1 4 0v2.500a2 2 0 0 1 4 0V24c0 6-3 9-8 9s-7-2-9.500-6L7 21.500c-1.500-2.500 1.500-4 3-2zM15 15.500V21M19 9.500V20M23 10V20',
  rule: 'M2 14h36v12H2zM6 14v6M10 14v4M14 14v6M18 14v4M22 14v6M26 14v4M30 14v6M34 14v4',
  feeler:
    'M5 31a4 4 0 1 0 6 3.500L35 27l1-4L9 27.500M9 27.500L33 17l-1-4L7 26.500M7 26.500L26 8l-3-3L5 27.500',
  calliper: 'M3 10h35v6H19v6l-4 4V16h-4v10l-4-4v-6H3zM15 10V6h10v4M24 12v2M28 12v2M32 12v2',
  square: 'M6 4h7v23h24v7H6zM13 9h-3M13 14h-3M13 19h-3M19 27v3M24 27v3M29 27v3',
  straightedge: 'M2 22h36v5H2zM5 31h30M12 27v4M17 27v4',
  dial: 'M20 4a11 11 0 1 1 0 22a11 11 0 1 1 0-22zM20 15l5-6M20 26v10M17 36h6',
  lamp: 'M4 17h13v8H4zM17 17l7-4v16l-7-4M28 14l7-4M29 21h8M28 28l7 4M8 17v-3h4v3',
};

export function ToolIcon({ tool }: { readonly tool: Tool | 'lamp' }) {
  return (
    <svg viewBox="0 0 40 40" width="40" height="40" aria-hidden="true" focusable="false">
      <path
        d={OUTLINES[tool]}
        fill="none"
        stroke="currentColor"
        stroke-width="1.75"
        stroke-linejoin="round"
        stroke-linecap="round"
      />
    </svg>
  );
}
