import './class-floor.css';

/** Pieces that are laid end to end, each of its own length, in any one unit. */
type ClassFloorProps = {
  readonly paper: number;
  readonly blocks: readonly number[];
  /** What the whole width stands for. */
  readonly whole: number;
};

/**
 * A class as a floor: ink for the hall, cut where a block ends, and above it in grey what stands on paper, both on one
 * scale. For eyes only; the numbers stand beside it as words.
 */
export function ClassFloor({ paper, blocks, whole }: ClassFloorProps) {
  const share = (length: number): string => `${(100 * length) / Math.max(whole, 1)}%`;
  const starts = blocks.map((_, index) => blocks.slice(0, index).reduce((sum, one) => sum + one, 0));
  const hall = blocks.reduce((sum, one) => sum + one, 0);
  return (
    <svg class="class-floor" width="100%" height="24" aria-hidden="true">
      <rect class="class-floor-paper" y="0" width={share(paper)} height="6" />
      <rect class="class-floor-hall" y="10" width={share(hall)} height="12" />
      {starts.slice(1).map((start) => (
        <rect key={start} class="class-floor-cut" x={share(start)} y="10" width="4" height="12" />
      ))}
    </svg>
  );
}
