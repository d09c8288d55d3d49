/** @typedef {import('./figure-lines.ts').FigureLine} FigureLine */

/** @type {Record<FigureLine['verdict'], string>} */
const MARKS = { ok: 'ok  ', OVER: 'OVER', beside: '    ' };

/**
 * Prints each figure as soon as it is measured, and remembers what was over.
 *
 * @returns {import('vitest/reporters').Reporter & { readonly sum: () => { figures: number, over: number, broken: number } }}
 */
export function figureReporter() {
  let figures = 0;
  let over = 0;
  let broken = 0;

  /** @param {FigureLine} line */
  const tell = ({ figure, where, measured, limit, verdict }) => {
    const name = where === '' ? figure : `${figure} (${where})`;
    console.log(`${MARKS[verdict]}  ${name}: ${measured}${limit === '' ? '' : `, limit ${limit}`}`);
    if (verdict !== 'beside') figures += 1;
    if (verdict === 'OVER') over += 1;
  };

  /** @param {readonly { readonly message: string, readonly stack?: string | undefined }[]} errors @param {string} name */
  const tellBroken = (errors, name) => {
    broken += 1;
    console.log(`BROKEN  ${name}: could not be measured`);
    for (const error of errors) console.log((error.stack ?? error.message).replace(/^/gm, '        '));
  };

  return {
    onTestCaseResult: (testCase) => {
      for (const line of testCase.meta().lines ?? []) tell(line);
      const result = testCase.result();
      if (result.state === 'skipped') console.log(`skipped: ${testCase.name}: ${result.note ?? 'no reason given'}`);
      if (result.state === 'failed') tellBroken(result.errors, testCase.name);
    },
    onTestRunEnd: (modules, errors) => {
      for (const module of modules) if (module.errors().length > 0) tellBroken(module.errors(), module.moduleId);
      if (errors.length > 0) tellBroken(errors, 'the run');
    },
    sum: () => ({ figures, over, broken }),
  };
}
