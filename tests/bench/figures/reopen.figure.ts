import { setTimeout as wait } from 'node:timers/promises';
import { afterEach, beforeEach, test } from 'vitest';
import { shouldShow } from '../../browser/support/class-times.ts';
import { lastKept } from '../../browser/support/kept-rows.ts';
import { newPhone, type Phone } from '../../browser/support/phone.ts';
import { noteFigure } from '../figure-lines.ts';
import { medianAndWorst, worstOf } from '../numbers.ts';
import { paintsOf, watchPaints } from '../paint-watch.ts';
import { enterHall, pressStart, untilKept, untilStatus } from '../plain-hall.ts';
import { slowDown } from '../sound/conditions.ts';

const LIMIT_MS = 700;
const SLOWED = 4;
const KILLS = 5;
const OPENING_MS = 3000;
/** The class's zero is kept as whole ms of the wall clock. */
const ROUNDING_MS = 40;

let phone: Phone;

beforeEach(async () => {
  phone = await newPhone();
});

afterEach(() => phone.end());

/** A phone that has been here before, with a class in its first minutes, killed. */
async function killInClass(): Promise<void> {
  const { page, kill } = await phone.open();
  await enterHall(page, phone.url);
  await pressStart(page);
  await untilKept(page);
  await wait(2500);
  await kill();
}

/** Opens the app again and gives the ms from the start of the navigation to the right second on the screen; then kills it. */
async function reopen(): Promise<number> {
  const { context, page, kill } = await phone.open();
  await watchPaints(context);
  await slowDown({ context }, page, SLOWED);
  await page.goto(phone.url, { waitUntil: 'commit' });
  // Nobody asks the page anything while it opens: that would take its time.
  await wait(OPENING_MS);
  await untilStatus(page, 'running');
  const kept = await lastKept(page);
  const paints = await paintsOf(page);
  const right = paints.find((paint) => {
    const shifts = [-ROUNDING_MS, 0, ROUNDING_MS];
    return shifts.some((shift) => isRight(paint, shouldShow(kept, paint.changedWallMs + shift)));
  });
  await wait(1000);
  await kill();
  return right?.paintedMonoMs ?? Number.NaN;
}

function isRight(
  { status, left, digits }: { status: string; left: string; digits: string },
  should: { status: string; leftMs: number },
): boolean {
  return digits !== '' && status === should.status && Number(left) === Math.ceil(should.leftMs / 1000);
}

test.for([
  { where: 'server up', hasServer: true },
  { where: 'server stopped', hasServer: false },
])('reopen, $where', async ({ where, hasServer }, { task }) => {
  await killInClass();
  if (!hasServer) await phone.stopServer();
  const times: number[] = [];
  while (times.length < KILLS) times.push(await reopen());
  noteFigure(task, {
    figure: `reopened after a kill to the right second, slowed ${SLOWED} times`,
    where,
    value: worstOf(times),
    limit: LIMIT_MS,
    unit: 'ms',
    measured: medianAndWorst(times, 'ms', 0),
  });
});
