import { describe, expect, test } from 'vitest';
import {
  ASK_OVER_MS,
  judgeGap,
  judgeLead,
  LEAD_TOLERANCE_MS,
  type LeadVerdict,
} from '../../src/class-run/clock-rule.ts';

/** Three clocks of one phone, each moved by hand: they really diverge. */
type ThreeClocks = { readonly monoMs: number; readonly wallMs: number; readonly audioMs: number };

const START: ThreeClocks = { monoMs: 5000, wallMs: 1_800_000_000_000, audioMs: 300 };

/** Everyone is awake: all three run. */
const awake = (c: ThreeClocks, ms: number): ThreeClocks => ({
  monoMs: c.monoMs + ms,
  wallMs: c.wallMs + ms,
  audioMs: c.audioMs + ms,
});
/** The phone sleeps as most phones do: only the wall clock runs. */
const asleep = (c: ThreeClocks, ms: number): ThreeClocks => ({ ...c, wallMs: c.wallMs + ms });
/** A browser freezes the page: audio stands, the page's clock runs. */
const frozen = (c: ThreeClocks, ms: number): ThreeClocks => ({ ...awake(c, ms), audioMs: c.audioMs });
/** Somebody, or a time server, sets the wall clock. */
const wallSet = (c: ThreeClocks, ms: number): ThreeClocks => ({ ...c, wallMs: c.wallMs + ms });

const leadOf = (from: ThreeClocks, to: ThreeClocks): number => to.wallMs - from.wallMs - (to.monoMs - from.monoMs);

type Case = {
  readonly what: string;
  readonly to: ThreeClocks;
  readonly wasUnseen: boolean;
  readonly verdict: LeadVerdict;
};

const HOUR = 3_600_000;

const CASES: readonly Case[] = [
  { what: 'all run and are watched', to: awake(START, 60_000), wasUnseen: false, verdict: { verdict: 'steady' } },
  { what: 'all run, hidden', to: awake(START, 60_000), wasUnseen: true, verdict: { verdict: 'steady' } },
  { what: 'a frozen page whose clock ran', to: frozen(START, 40_000), wasUnseen: true, verdict: { verdict: 'steady' } },
  {
    what: 'a lead of exactly the tolerance, hidden',
    to: asleep(START, LEAD_TOLERANCE_MS),
    wasUnseen: true,
    verdict: { verdict: 'steady' },
  },
  {
    what: 'just over the tolerance, hidden: it slept',
    to: asleep(START, LEAD_TOLERANCE_MS + 1),
    wasUnseen: true,
    verdict: { verdict: 'slept', byMs: LEAD_TOLERANCE_MS + 1 },
  },
  {
    what: 'just over the tolerance, watched: the wall was moved',
    to: wallSet(START, LEAD_TOLERANCE_MS + 1),
    wasUnseen: false,
    verdict: { verdict: 'wallMoved', byMs: LEAD_TOLERANCE_MS + 1 },
  },
  {
    what: 'a lag of exactly the tolerance',
    to: wallSet(START, -LEAD_TOLERANCE_MS),
    wasUnseen: true,
    verdict: { verdict: 'steady' },
  },
  {
    what: 'the wall went back, watched',
    to: wallSet(awake(START, 10_000), -HOUR),
    wasUnseen: false,
    verdict: { verdict: 'wallMoved', byMs: -HOUR },
  },
  {
    what: 'the wall went back, hidden',
    to: wallSet(awake(START, 10_000), -HOUR),
    wasUnseen: true,
    verdict: { verdict: 'wallMoved', byMs: -HOUR },
  },
  {
    what: 'an hour on, watched',
    to: wallSet(awake(START, 10_000), HOUR),
    wasUnseen: false,
    verdict: { verdict: 'wallMoved', byMs: HOUR },
  },
  {
    what: 'slept 45 s, hidden',
    to: asleep(awake(START, 3000), 45_000),
    wasUnseen: true,
    verdict: { verdict: 'slept', byMs: 45_000 },
  },
  {
    what: 'slept exactly ten minutes',
    to: asleep(START, ASK_OVER_MS),
    wasUnseen: true,
    verdict: { verdict: 'slept', byMs: ASK_OVER_MS },
  },
  {
    what: 'slept a moment over ten minutes: ask',
    to: asleep(START, ASK_OVER_MS + 1),
    wasUnseen: true,
    verdict: { verdict: 'ask', gapMs: ASK_OVER_MS + 1 },
  },
];

describe('the clock rule within one page life', () => {
  test.each(CASES)('$what', ({ to, wasUnseen, verdict }) => {
    expect(judgeLead({ leadMs: leadOf(START, to), wasUnseen })).toEqual(verdict);
  });

  test('the cases hold clocks that diverge: audio against page, page against wall', () => {
    const spread = CASES.map(({ to }) => [
      to.monoMs - START.monoMs,
      to.wallMs - START.wallMs,
      to.audioMs - START.audioMs,
    ]);
    expect(spread.some(([mono, , audio]) => mono !== audio)).toBe(true);
    expect(spread.some(([mono, wall]) => mono !== wall)).toBe(true);
  });

  test('gives whole ms for clocks that read in fractions', () => {
    expect(judgeLead({ leadMs: 45_000.6, wasUnseen: true })).toEqual({ verdict: 'slept', byMs: 45_001 });
  });
});

describe('the clock rule after a reload', () => {
  test.each([
    ['at the beat itself', 0, { verdict: 'runOn', gapMs: 0 }],
    ['a short gap', 8000, { verdict: 'runOn', gapMs: 8000 }],
    ['exactly ten minutes', ASK_OVER_MS, { verdict: 'runOn', gapMs: ASK_OVER_MS }],
    ['over ten minutes', ASK_OVER_MS + 1, { verdict: 'ask', gapMs: ASK_OVER_MS + 1 }],
    ['the wall went back', -1, { verdict: 'ask', gapMs: -1 }],
    ['next week', 7 * 24 * HOUR, { verdict: 'ask', gapMs: 7 * 24 * HOUR }],
  ] as const)('%s', (_what, gapMs, verdict) => {
    expect(judgeGap(1_800_000_000_000, 1_800_000_000_000 + gapMs)).toEqual(verdict);
  });
});
