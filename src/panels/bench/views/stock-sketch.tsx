import type { Bench } from '../../../bench/index.ts';
import { sayLength } from '../work/words.ts';

/** Drawing units: the sheet, and how far the board runs back in the oblique view. */
const SHEET = { width: 350, height: 150 };
const BOARD = { x: 74, y: 46, width: 150, least: 10, back: 70, rise: -34 };

/** The stock in oblique view, its end toward the reader, the cut as a dashed line. */
export function StockSketch({ job }: { readonly job: Bench['job'] }) {
  const { width, thickness, length } = job.stock;
  const scale = BOARD.width / width;
  const depth = Math.max(BOARD.least, Math.min(70, thickness * scale));
  const { x, y, back, rise } = BOARD;
  const right = x + BOARD.width;
  const bottom = y + depth;
  const cut = x + BOARD.width - Math.min(width, job.widthOfCut) * scale;
  const isAlong = job.cut !== 'crosscut';
  return (
    <svg
      class="bench-stock-sketch"
      viewBox={`0 0 ${SHEET.width} ${SHEET.height}`}
      aria-hidden="true"
      focusable="false"
    >
      <g class="board">
        <path d={`M${x} ${y}l${back} ${rise}h${BOARD.width}L${right} ${y}z`} />
        <path d={`M${right} ${y}l${back} ${rise}v${depth}L${right} ${bottom}z`} />
        <rect x={x} y={y} width={BOARD.width} height={depth} />
        {[0.3, 0.55, 0.8].map((share) => (
          <path
            key={share}
            class="grain"
            d={`M${x + 6} ${bottom - 2}q${BOARD.width / 2} ${-depth * 1.6 * share} ${BOARD.width - 12} 0`}
          />
        ))}
      </g>
      <path
        class="cut"
        d={
          isAlong
            ? `M${cut} ${bottom}V${y}l${back} ${rise}`
            : `M${x + back / 2} ${y + rise / 2}h${BOARD.width}v${depth}`
        }
      />
      <g class="size">
        <path
          d={`M${x} ${bottom + 5}v20M${right} ${bottom + 5}v20M${x} ${bottom + 18}h${BOARD.width}`}
        />
        <text x={x + BOARD.width / 2} y={bottom + 36} text-anchor="middle">
          {sayLength({ mm: width })}
        </text>
        <path d={`M${x - 5} ${y}h-16M${x - 5} ${bottom}h-16M${x - 14} ${y}v${depth}`} />
        <text x={x - 22} y={y + depth / 2 + 5} text-anchor="end">
          {sayLength({ mm: thickness })}
        </text>
        <text x={right + 8 + back / 2 + 8} y={bottom + 3 + rise / 2 + 16}>
          {sayLength({ mm: length })}
        </text>
        <path d={`M${right + 8} ${bottom + 3}l${back} ${rise}`} />
      </g>
    </svg>
  );
}
