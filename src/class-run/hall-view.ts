import type { MoveId, MoveLibrary } from '../moves/move.ts';
import type { Entry, Plan } from '../plan/plan.ts';
import { isWork, type Side, type Span, type SpanKind } from '../running-order/span.ts';
import type { ClassState, Standing, Status } from './class-state.ts';
import { comingWork } from './coming.ts';
import { figureOf, levelOf, lowerOf, nextOf } from './hall-figures.ts';
import { lineFor, milestoneAt } from './hall-line.ts';
import type { FigureView, FloorView, Milestone, NextView, WordsView } from './hall-values.ts';
import type { Level } from './marks.ts';
import { isLeadIn } from './now.ts';
import { type ClassPosition, finishAt, positionAt } from './position.ts';

/** Everything the hall shows, as values: a function of state and class time, with no words for people but the plan's own. */
export type HallView = {
  /** Class instant that these values are of. */
  readonly atMs: number;
  readonly status: Status;
  /** Why the class stands and since when; null while it runs, before and after. */
  readonly standing: Standing | null;
  readonly kind: SpanKind | null;
  readonly spanId: number | null;
  /** What is done now; in a lead-in what comes. */
  readonly moveIds: readonly MoveId[];
  readonly side: Side | null;
  /** Whole seconds, rounded up; null where time does not run down. */
  readonly leftSeconds: number | null;
  /** As shown: `24`, `1:30`, or empty. Never a lone minute digit. */
  readonly digits: string;
  /** Hollow: the class stands, or goes on by itself from a wait point. */
  readonly hollow: boolean;
  readonly field: 'light' | 'dark';
  readonly floor: FloorView;
  readonly main: FigureView | null;
  readonly lower: FigureView | null;
  /** Level now shown as the main figure; not 0 after "lower for all". */
  readonly level: Level;
  /** Null until nine seconds before, and in the lead-in itself (there the main figure is the coming move). */
  readonly next: NextView | null;
  readonly words: WordsView | null;
  /** A wait point that only the instructor ends. */
  readonly gate: boolean;
  readonly forSome: string | null;
  readonly round: number;
  readonly rounds: number;
  /** The one line for the instructor now; empty when there is none. */
  readonly line: string;
  readonly milestone: Milestone | null;
  /** Class time at which the class ends as things stand. */
  readonly finishAtMs: number;
  /** Finish against the plan: above 0 is running late. */
  readonly lateMs: number;
  /** Class time of the next instant at which any of these values changes; null when none will by itself. */
  readonly changesAtMs: number | null;
};

/** What a view needs to know of the class beside its state. */
export type HallPapers = { readonly plan: Plan; readonly library: MoveLibrary };

const DARK_MS = 3000;
/** Below this a span is too short to go dark and light again. */
const LEAST_LIGHT_MS = 9000;
const NEXT_FROM_S = 9;

/** Everything the hall shows at a class instant. */
export function hallViewOf(state: ClassState, papers: HallPapers, atMs: number): HallView {
  const at = positionAt(state, atMs);
  const base = outline(state, at, atMs);
  return at.span === null ? base : { ...base, ...sceneOf(state, papers, at, at.span), ...timeOf(at, at.span, atMs) };
}

function outline(state: ClassState, at: ClassPosition, atMs: number): HallView {
  const finishAtMs = finishAt(state, atMs);
  return {
    atMs,
    status: at.status,
    standing: state.phase.kind === 'live' ? state.phase.standing : null,
    kind: null,
    spanId: null,
    moveIds: [],
    side: null,
    leftSeconds: null,
    digits: '',
    hollow: false,
    field: 'light',
    floor: { leftMs: 0, wholeMs: 1, runs: false },
    main: null,
    lower: null,
    level: 0,
    next: null,
    words: null,
    gate: false,
    forSome: null,
    round: 0,
    rounds: 0,
    line: '',
    milestone: null,
    finishAtMs,
    lateMs: finishAtMs - state.order.plannedMs,
    changesAtMs: null,
  };
}

function sceneOf(state: ClassState, { plan, library }: HallPapers, at: ClassPosition, span: Span): Partial<HallView> {
  const block = plan.blocks.find((one) => one.id === span.blockId);
  const entry = block?.entries.find((one) => one.id === span.entryId);
  const shown = span.doing.length > 0 ? span : state.live[comingWork(state, at.index)];
  const level = levelOf(state, shown);
  const left = Math.ceil(at.leftMs / 1000);
  const showsNext = isWork(span) ? left <= NEXT_FROM_S && !span.open : span.doing.length === 0 && span.kind !== 'wait';
  return {
    kind: span.kind,
    spanId: span.id,
    moveIds: span.doing.map((doing) => doing.moveId),
    side: span.doing[0]?.side ?? null,
    main: span.doing.length > 0 || span.kind === 'wait' ? figureOf(shown, library, level) : null,
    lower: span.doing.length > 0 || span.kind === 'wait' ? lowerOf(shown, library, level) : null,
    level,
    next: showsNext ? nextOf(state, library, at.index) : null,
    words: wordsOf(span, entry),
    gate: span.kind === 'wait' && span.open,
    forSome: entry?.kind === 'move' && entry.forSome !== null ? `${entry.forSome.who}: ${entry.forSome.doing}` : null,
    round: span.round,
    rounds: block?.rounds ?? 0,
    line: lineFor(state, library, span, at.intoMs),
    milestone: milestoneAt(state, at.index, circuitOf(plan)),
  };
}

function circuitOf(plan: Plan): ReadonlySet<string> {
  return new Set(plan.blocks.filter((block) => block.part === 'circuit').map((block) => block.id));
}

function wordsOf(span: Span, entry: Entry | undefined): WordsView | null {
  if (span.kind === 'rest') return { kind: 'rest', text: '' };
  if (entry?.kind === 'wait' && span.kind === 'wait') return { kind: 'wait', text: entry.why };
  const isTalk = (span.kind === 'talk' || span.kind === 'water') && (entry?.kind === 'talk' || entry?.kind === 'water');
  return isTalk ? { kind: entry.kind, text: entry.about } : null;
}

function timeOf(at: ClassPosition, span: Span, atMs: number): Partial<HallView> {
  const stands = at.status === 'paused' || at.status === 'asking';
  const leftSeconds = span.open ? null : Math.ceil(at.leftMs / 1000);
  return {
    leftSeconds,
    digits: digitsOf(leftSeconds),
    hollow: stands || (span.kind === 'wait' && !span.open),
    field: fieldOf(span, at.leftMs, stands),
    floor: { leftMs: at.leftMs, wholeMs: Math.max(1, span.doneMs + span.lengthMs), runs: !stands && !span.open },
    changesAtMs: stands || span.open ? nextSecond(atMs) : atMs + untilNextDigit(at.leftMs),
  };
}

/** `24`, `1:30`, or empty where time does not run down. Whole seconds. */
export function digitsOf(leftSeconds: number | null): string {
  if (leftSeconds === null) return '';
  if (leftSeconds < 60) return String(leftSeconds);
  return `${Math.floor(leftSeconds / 60)}:${String(leftSeconds % 60).padStart(2, '0')}`;
}

/** Dark means changing: lead-ins, side changes and the last three seconds, in sharp blocks; standing is light. */
function fieldOf(span: Span, leftMs: number, stands: boolean): 'light' | 'dark' {
  if (stands || span.cueStyle !== 'sharp' || span.kind === 'wait' || span.kind === 'talk') return 'light';
  if (isLeadIn(span) || span.kind === 'sideChange' || span.kind === 'water' || span.kind === 'rest') return 'dark';
  return leftMs <= DARK_MS && !span.open && span.doneMs + span.lengthMs >= LEAST_LIGHT_MS ? 'dark' : 'light';
}

function nextSecond(atMs: number): number {
  return (Math.floor(atMs / 1000) + 1) * 1000;
}

/** Digits round up, so they change when a whole second is left behind. */
function untilNextDigit(leftMs: number): number {
  const over = leftMs % 1000;
  return over === 0 ? 1000 : over;
}
