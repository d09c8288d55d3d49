import circuitAddress from '../../../assets/moves/circuit.json?url';
import stretchAddress from '../../../assets/moves/stretch.json?url';
import warmUpAddress from '../../../assets/moves/warm-up.json?url';
import demoAddress from '../../../assets/plans/demo-class.json?url';
import { libraryOf } from '../../../src/moves/library.ts';
import type { Move, MoveLibrary } from '../../../src/moves/move.ts';
import type { Plan } from '../../../src/plan/plan.ts';
import type { Log } from '../../../src/ports/log.ts';
import { parseMoves } from '../../../src/records/paper.ts';
import { parsePlan } from '../../../src/records/plan.ts';

/** The moves and plans that come with the app. */
export type StarterData = { readonly library: MoveLibrary; readonly plans: readonly Plan[] };

/**
 * Fetches the starter library and the demo class: data like any other, so what does not parse is left out and noted.
 * Never rejects: without them what is kept on the phone still opens.
 */
export async function starterData(log: Log): Promise<StarterData> {
  const addresses = [warmUpAddress, circuitAddress, stretchAddress, demoAddress];
  const [warmUp, circuit, stretch, demo] = await Promise.all(addresses.map((address) => fetchJson(address, log)));
  return { library: libraryOf(movesIn([warmUp, circuit, stretch], log)), plans: plansIn(demo, log) };
}

async function fetchJson(address: string, log: Log): Promise<unknown> {
  try {
    return await (await fetch(address)).json();
  } catch (error) {
    log.note('starter data: not there', error);
    return null;
  }
}

function movesIn(files: readonly unknown[], log: Log): readonly Move[] {
  const moves = parseMoves(files.flatMap((file) => (Array.isArray(file) ? file : [])));
  if (moves.ok) return moves.value;
  log.note('starter moves', moves);
  return [];
}

function plansIn(file: unknown, log: Log): readonly Plan[] {
  const raw: unknown = typeof file === 'object' && file !== null && 'plan' in file ? file.plan : null;
  const plan = parsePlan(raw);
  if (plan.ok) return [plan.value];
  log.note('starter plan', plan);
  return [];
}
