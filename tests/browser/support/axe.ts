import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { AxeResults } from 'axe-core';
import type { Page } from 'playwright-core';

const AXE = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
const RULES = ['wcag2a', 'wcag2aa', 'wcag21aa', 'wcag22aa', 'best-practice'];

/** What axe-core finds wrong on the page as it stands, one line each; throws where it looked at nothing. */
export async function axeFaults(page: Page): Promise<readonly string[]> {
  if (!(await page.evaluate(() => 'axe' in window))) await page.evaluate(AXE);
  const { violations, passes } = await page.evaluate(
    (rules): Promise<AxeResults> =>
      Reflect.get(window, 'axe').run(document, { runOnly: rules, resultTypes: ['violations'] }),
    RULES,
  );
  if (passes.length < 5) throw new Error(`axe looked at next to nothing: ${passes.length} rules`);
  return violations.flatMap(({ id, nodes }) =>
    nodes.map(({ target, any }) => `${id}: ${target.join(' ')} ${any[0]?.message ?? ''}`),
  );
}
