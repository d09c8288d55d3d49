import type { ClassState } from '../../src/class-run/class-state.ts';
import type { Edit, Intent, Mark } from '../../src/class-run/marks.ts';
import { replayOn } from '../../src/class-run/replay.ts';
import type { Span } from '../../src/running-order/span.ts';
import { type Machine, realMachine } from './machine.ts';

/** A machine with one fault in it, and the fault in words. */
export type Mutant = { readonly name: string; readonly machine: Machine };

type Changed = Extract<Mark, { kind: 'changed' }>;

/**
 * A machine that decides differently: what it writes is bent to `rewrite`, and its state follows from what it wrote, so
 * that replay and live class agree with each other and only someone who knows the rules can tell.
 */
function deciding(rewrite: (mark: Changed, state: ClassState) => Changed): Machine {
  return {
    ...realMachine,
    step: (state, intent) => {
      const step = realMachine.step(state, intent);
      const marks = step.marks.map((mark) => (mark.kind === 'changed' ? rewrite(mark, state) : mark));
      const again = replayOn(state, marks);
      return again.ok ? { ...step, marks, state: again.state } : step;
    },
  };
}

/** A machine that hears something else than what was asked. */
function hearing(mishear: (intent: Intent, state: ClassState) => Intent): Machine {
  return { ...realMachine, step: (state, intent) => realMachine.step(state, mishear(intent, state)) };
}

const editing = (
  why: Changed['why'],
  change: (edits: readonly Edit[], state: ClassState) => readonly Edit[],
): Machine => deciding((mark, state) => (mark.why === why ? { ...mark, edits: change(mark.edits, state) } : mark));

const inserted = (edit: Edit, change: (span: Span) => Span): Edit =>
  edit.do === 'insert' ? { ...edit, spans: edit.spans.map(change) } : edit;

/** How long the last piece of this stretch was that is in the live list, cut as it may be. */
function lastLength(state: ClassState, of: number): number {
  return state.live.findLast((span) => span.of === of && span.kind !== 'countIn')?.lengthMs ?? 0;
}

function roundOf(state: ClassState, edit: Edit | undefined): number | undefined {
  return edit?.do === 'resize' ? state.live.find((span) => span.id === edit.span)?.round : undefined;
}

const shut = (state: ClassState): ClassState => ({
  ...state,
  live: state.live.map((span) => (span.open ? { ...span, open: false } : span)),
  firstOpen: -1,
});

const waitsNoLonger: Machine = {
  ...realMachine,
  positionAt: (state, atMs) => realMachine.positionAt(shut(state), atMs),
  step: (state, intent) => {
    const step = realMachine.step(shut(state), intent);
    const again = replayOn(state, step.marks);
    return again.ok ? { ...step, state: again.state } : step;
  },
};

const datesBack: Machine = {
  ...realMachine,
  step: (state, intent) => realMachine.step({ ...state, lastMs: Math.min(state.lastMs, intent.atMs) }, intent),
};

const standsUp = (state: ClassState): ClassState =>
  state.phase.kind === 'live' ? { ...state, phase: { kind: 'live', standing: null } } : state;

const forgetsCountIns: Machine = (() => {
  const counted = (marks: readonly Mark[]) =>
    marks
      .flatMap((mark) => (mark.kind === 'changed' && mark.why === 'countIn' ? mark.edits : []))
      .flatMap((edit) => (edit.do === 'insert' ? edit.spans : []))
      .reduce((sum, span) => (span.kind === 'countIn' ? sum + span.lengthMs : sum), 0);
  const less = (state: ClassState, byMs: number): ClassState => ({
    ...state,
    books: { ...state.books, givenMs: state.books.givenMs - byMs },
  });
  return {
    ...realMachine,
    step: (state, intent) => {
      const step = realMachine.step(state, intent);
      return { ...step, state: less(step.state, counted(step.marks)) };
    },
    replay: (order, marks) => {
      const again = realMachine.replay(order, marks);
      return again.ok ? { ok: true, state: less(again.state, counted(marks)) } : again;
    },
  };
})();

const finishesWhenLooked: Machine = {
  ...realMachine,
  step: (state, intent) => {
    const step = realMachine.step(state, intent);
    const { phase } = step.state;
    if (phase.kind !== 'finished' || step.marks.length === 0) return step;
    const atMs = Math.max(phase.atMs, intent.atMs);
    const marks = step.marks.map((mark) => (mark.kind === 'finished' ? { ...mark, atMs } : mark));
    return { ...step, marks, state: { ...step.state, lastMs: atMs, phase: { kind: 'finished', atMs } } };
  },
};

const forgetsStood: Machine = {
  ...realMachine,
  replay: (order, marks) =>
    realMachine.replay(
      order,
      marks.map((mark) => (mark.kind === 'stood' ? { ...mark, byMs: 0 } : mark)),
    ),
};

const takesBentMarks: Machine = {
  ...realMachine,
  replay: (order, marks) => {
    const again = realMachine.replay(order, marks);
    return again.ok ? again : realMachine.replay(order, marks.slice(0, Math.max(0, again.seq)));
  },
};

/** The faults that a walk must find. Each is one that a hall would notice, or that would cost a class its record. */
export const MUTANTS: readonly Mutant[] = [
  {
    name: 'a pause does not stop the run clock',
    machine: {
      ...realMachine,
      positionAt: (state, atMs) => ({
        ...realMachine.positionAt(standsUp(state), atMs),
        status: realMachine.positionAt(state, atMs).status,
      }),
    },
  },
  {
    name: 'going back copies what ran, not what was planned',
    machine: editing('back', (edits, state) =>
      edits.map((edit) =>
        inserted(edit, (span) =>
          span.kind === 'countIn' ? span : { ...span, lengthMs: Math.min(span.lengthMs, lastLength(state, span.of)) },
        ),
      ),
    ),
  },
  { name: 'ten seconds more forget the other side', machine: editing('give', (edits) => edits.slice(0, 1)) },
  {
    name: 'what is skipped is booked as trimmed',
    machine: editing('skip', (edits) =>
      edits.map((edit) => (edit.do === 'resize' ? { ...edit, account: 'trimmed' } : edit)),
    ),
  },
  { name: 'carrying on leaves its count-in out of the books', machine: forgetsCountIns },
  { name: 'a late look moves the finish', machine: finishesWhenLooked },
  {
    name: 'a stale press for the next move is spent on the one after',
    machine: hearing((intent, state) =>
      intent.kind === 'nextMove'
        ? {
            ...intent,
            span: realMachine.positionAt(state, Math.max(intent.atMs, state.lastMs)).span?.id ?? intent.span,
          }
        : intent,
    ),
  },
  { name: 'a wait point that waits to be asked goes on by itself', machine: waitsNoLonger },
  {
    name: 'dropping a move leaves it in later rounds',
    machine: editing('drop', (edits, state) => {
      const first = roundOf(state, edits[0]);
      return edits.filter((edit) => roundOf(state, edit) === first);
    }),
  },
  {
    name: 'the rest of a move after a count-in loses a second',
    machine: editing('countIn', (edits) =>
      edits.map((edit) =>
        inserted(edit, (span) =>
          span.kind === 'countIn' ? span : { ...span, lengthMs: Math.max(0, span.lengthMs - 1000) },
        ),
      ),
    ),
  },
  { name: 'replay forgets that the class stood', machine: forgetsStood },
  { name: 'a bent mark is passed over', machine: takesBentMarks },
  { name: 'a press dated back runs the class clock back', machine: datesBack },
  {
    name: 'the next move takes the way into it along',
    machine: editing('skip', (edits, state) => {
      const last = edits.at(-1);
      const at = last?.do === 'resize' ? state.live.findIndex((span) => span.id === last.span) : -1;
      const leadIn = state.live[at + 1];
      if (leadIn?.kind !== 'changeover') return edits;
      return [...edits, { do: 'resize', span: leadIn.id, toMs: 0, account: 'skipped' }];
    }),
  },
  {
    name: 'two windows of cues that join repeat what is due where they meet',
    machine: {
      ...realMachine,
      cuesBetween: (state, library, fromMs, toMs) => realMachine.cuesBetween(state, library, fromMs - 1, toMs),
    },
  },
  {
    name: 'the second side is a second shorter on paper',
    machine: {
      ...realMachine,
      compile: (plan, library) => {
        const order = realMachine.compile(plan, library);
        const spans = order.spans.map((span) =>
          span.pair !== null && span.pair < span.id ? { ...span, lengthMs: span.lengthMs - 1000 } : span,
        );
        return { spans: spans.filter((span) => span.lengthMs > 0), plannedMs: order.plannedMs };
      },
    },
  },
];
