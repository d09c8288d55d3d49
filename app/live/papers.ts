import type { Move, MoveLibrary } from '../../src/moves/move.ts';
import type { Plan } from '../../src/plan/plan.ts';
import type { Digest } from '../../src/ports/digest.ts';
import { canonicalJson } from '../../src/records/canonical.ts';
import { type Paper, STORED_VERSION } from '../../src/records/stored-shapes.ts';
import type { RunningOrder } from '../../src/running-order/span.ts';

/** The papers of a class under the hash of what they say; null where the browser cannot hash. */
export async function makePaper(
  digest: Digest,
  plan: Plan,
  order: RunningOrder,
  library: MoveLibrary,
): Promise<Paper | null> {
  const moves = movesOf(plan, library);
  const hash = await digest.sha256Hex(canonicalJson({ plan, order, moves }));
  return hash === null ? null : { v: STORED_VERSION, hash, plan, order, moves };
}

function movesOf(plan: Plan, library: MoveLibrary): readonly Move[] {
  const ids = new Set<string>();
  for (const block of plan.blocks) {
    for (const entry of block.entries) if (entry.kind === 'move') ids.add(entry.moveId);
  }
  return [...ids].flatMap((id) => library.get(id) ?? []);
}
