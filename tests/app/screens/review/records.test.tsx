import { cleanup, fireEvent, render, screen, waitFor } from '@testing-library/preact';
import { afterEach, describe, expect, it, vi } from 'vitest';
import { PAGE_SIZE } from '../../../../app/screens/review/record-pages.ts';
import { Records, type RecordsProps } from '../../../../app/screens/review/records.tsx';
import type { RecordLine } from '../../../../src/ports/class-store.ts';
import type { RecordHead } from '../../../../src/records/stored-shapes.ts';
import { A_START_WALL_MS, aHead, ended } from '../../../builders/kept-class.ts';

afterEach(cleanup);

const line = (head: RecordHead): RecordLine => ({ readable: true, head, lastSeq: 5 });

/** Classes of one phone, newest first, given out as the store does. */
function storeOf(all: readonly RecordLine[]): RecordsProps['listRecords'] {
  return async (beforeWallMs, limit) => ({
    ok: true,
    value: all.filter((one) => !one.readable || one.head.startedWallMs < beforeWallMs).slice(0, limit),
  });
}

/** One a week, the newest first. */
const weeks = (count: number): readonly RecordLine[] =>
  Array.from({ length: count }, (_, week) =>
    line(ended(aHead(`class-${week}`, { startedWallMs: A_START_WALL_MS - week * 7 * 86_400_000 }))),
  );

const rows = (): readonly (string | null)[] => screen.queryAllByRole('listitem').map((row) => row.textContent);

describe('the classes that ran', () => {
  it('stand with day and time of their own zone, plan, minutes and outcome', async () => {
    render(<Records listRecords={storeOf(weeks(1))} />);
    const link = await screen.findByRole('link', { name: /Monday 2 March 2026/ });
    expect(link.getAttribute('href')).toBe('#/review/class-0');
    expect(link.textContent).toContain('19:00, Small class');
    expect(link.textContent).toContain('20 minutes');
    expect(link.textContent).toContain('finished');
  });

  it('say when one has not ended, or was left', async () => {
    const left = aHead('left', { endedWallMs: A_START_WALL_MS + 60_000, outcome: 'abandoned' });
    render(<Records listRecords={storeOf([line(aHead('open')), line(left)])} />);
    await waitFor(() => expect(rows()).toHaveLength(2));
    expect(rows()[0]).toContain('not ended');
    expect(rows()[0]).not.toContain('minutes');
    expect(rows()[1]).toContain('left before its end');
  });

  it('are none at first, and that is said only once it is known', async () => {
    render(<Records listRecords={storeOf([])} />);
    expect(screen.queryByText(/No class has run/)).toBeNull();
    expect(await screen.findByText(/No class has run/)).toBeTruthy();
  });

  it('come by page, older ones when asked for', async () => {
    render(<Records listRecords={storeOf(weeks(PAGE_SIZE + 2))} />);
    await waitFor(() => expect(rows()).toHaveLength(PAGE_SIZE));
    fireEvent.click(screen.getByRole('button', { name: 'Show older' }));
    await waitFor(() => expect(rows()).toHaveLength(PAGE_SIZE + 2));
    expect(screen.queryByRole('button', { name: 'Show older' })).toBeNull();
    expect(new Set(rows()).size).toBe(PAGE_SIZE + 2);
  });

  it('stand beside those that this version cannot read', async () => {
    const all: readonly RecordLine[] = [
      { readable: false, id: 'newer', reason: 'tooNew' },
      { readable: false, id: 'bent', reason: 'unreadable' },
      ...weeks(1),
    ];
    render(<Records listRecords={storeOf(all)} />);
    await waitFor(() => expect(rows()).toHaveLength(3));
    expect(rows()[0]).toContain('newer version');
    expect(rows()[1]).toContain('cannot be read');
  });

  it('are said to be out of reach where the store fails, and come when asked again', async () => {
    const listRecords = vi
      .fn(storeOf(weeks(1)))
      .mockImplementationOnce(async () => ({ ok: false, reason: 'unavailable' }));
    render(<Records listRecords={listRecords} />);
    expect((await screen.findByRole('alert')).textContent).toContain('does not let Hallpace read');
    expect(screen.queryByText(/No class has run/)).toBeNull();
    fireEvent.click(screen.getByRole('button', { name: 'Try again' }));
    await waitFor(() => expect(rows()).toHaveLength(1));
    expect(screen.queryByRole('alert')).toBeNull();
  });
});
