import type { RunnerTestCase } from 'vitest';

/** One line of the bench's answer. */
export type FigureLine = {
  readonly figure: string;
  /** Where or under what it was measured; empty when the figure says it all. */
  readonly where: string;
  readonly measured: string;
  /** Empty where there is none: printed beside another. */
  readonly limit: string;
  readonly verdict: 'ok' | 'OVER' | 'beside';
};

declare module 'vitest' {
  interface TaskMeta {
    lines?: FigureLine[];
  }
}

type Measured = {
  readonly figure: string;
  readonly where?: string;
  /** Held against the limit: the worst of what was measured unless the figure says otherwise. */
  readonly value: number;
  readonly limit: number;
  readonly unit: string;
  /** In place of the value alone. */
  readonly measured?: string;
};

/** Hands a figure to the report. What is no number is over: it was not measured. */
export function noteFigure(task: RunnerTestCase, { figure, where = '', value, limit, unit, measured }: Measured): void {
  const verdict = value <= limit ? 'ok' : 'OVER';
  addLine(task, { figure, where, measured: measured ?? `${value} ${unit}`, limit: `${limit} ${unit}`, verdict });
}

/** Hands over a line that no limit belongs to. */
export function noteBeside(task: RunnerTestCase, figure: string, where: string, measured: string): void {
  addLine(task, { figure, where, measured, limit: '', verdict: 'beside' });
}

function addLine(task: RunnerTestCase, line: FigureLine): void {
  task.meta.lines = [...(task.meta.lines ?? []), line];
}
