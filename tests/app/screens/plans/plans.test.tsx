import { cleanup, fireEvent, render, screen, waitFor } from '@testing-library/preact';
import { afterEach, describe, expect, it, vi } from 'vitest';
import type { PlanOpened } from '../../../../app/screens/plans/open-plan-file.tsx';
import type { PlanLine } from '../../../../app/screens/plans/plan-line.ts';
import { Plans } from '../../../../app/screens/plans/plans.tsx';

afterEach(cleanup);

const MINUTE = 60_000;

function aLine(change: Partial<PlanLine> = {}): PlanLine {
  const lengths = { paperMs: 20 * MINUTE, hallMs: 28 * MINUTE, blockMs: [28 * MINUTE] };
  return { planId: 'p', name: 'Evening', about: '', figure: 'squat', canRun: true, ...lengths, ...change };
}

const aFile = (name = 'plan.json', text = '{}'): File => new File([text], name, { type: 'application/json' });

function show(given: { readonly opens?: (file: File) => Promise<PlanOpened>; readonly unreadable?: number } = {}) {
  const onOpenFile = vi.fn(given.opens ?? (async (): Promise<PlanOpened> => ({ ok: false, sentence: 'No.' })));
  render(<Plans plans={[aLine()]} unreadable={given.unreadable ?? 0} onOpenFile={onOpenFile} />);
  const input = screen.getByLabelText('Open a plan file');
  return { onOpenFile, input, pick: (file: File) => fireEvent.change(input, { target: { files: [file] } }) };
}

describe('the list of plans', () => {
  it('leads to each plan, with its minutes on paper and in the hall', () => {
    render(
      <Plans
        plans={[aLine(), aLine({ planId: 'q', name: 'Short', paperMs: 8 * MINUTE, hallMs: 11 * MINUTE })]}
        unreadable={0}
        onOpenFile={async () => ({ ok: false, sentence: '' })}
      />,
    );
    const [first, second] = screen.getAllByRole('listitem').map((row) => row.querySelector('a'));
    expect(first?.getAttribute('href')).toBe('#/plans/p');
    expect(first?.textContent).toContain('20 on paper');
    expect(first?.textContent).toContain('28 minutes in the hall');
    expect(second?.textContent).toContain('11 minutes in the hall');
  });

  it('says how many plans cannot be read, and that they are still there', () => {
    show({ unreadable: 2 });
    expect(screen.getByText(/2 more plans are kept that this version cannot read/).textContent).toContain(
      'Nothing was deleted',
    );
  });
});

describe('opening a plan file', () => {
  it('links to the plan that it became', async () => {
    const { pick, onOpenFile } = show({ opens: async () => ({ ok: true, planId: 'new', name: 'Newcomer' }) });
    const file = aFile();
    pick(file);
    const link = await screen.findByRole('link', { name: 'Newcomer' });
    expect(link.getAttribute('href')).toBe('#/plans/new');
    expect(onOpenFile).toHaveBeenCalledWith(file);
  });

  it('shows why a file was refused', async () => {
    const { pick } = show({ opens: async () => ({ ok: false, sentence: 'Not opened: no blocks.' }) });
    pick(aFile());
    await waitFor(() => expect(screen.getByRole('status').textContent).toBe('Not opened: no blocks.'));
  });

  it('forgets the last answer for the next file', async () => {
    const answers: PlanOpened[] = [
      { ok: false, sentence: 'Not opened.' },
      { ok: true, planId: 'mended', name: 'Mended' },
    ];
    const { pick } = show({ opens: async () => answers.shift() ?? { ok: false, sentence: '' } });
    pick(aFile());
    await waitFor(() => expect(screen.getByRole('status').textContent).toBe('Not opened.'));
    pick(aFile());
    await screen.findByRole('link', { name: 'Mended' });
    expect(screen.getByRole('status').textContent).not.toContain('Not opened.');
  });

  it('does not read a file that is far too large', async () => {
    const { pick, onOpenFile } = show();
    pick(aFile('huge.json', 'x'.repeat(1_048_577)));
    await waitFor(() => expect(screen.getByRole('status').textContent).not.toBe(''));
    expect(onOpenFile).not.toHaveBeenCalled();
  });

  it('says so when a file cannot be read at all', async () => {
    const { pick } = show({
      opens: async () => {
        throw new DOMException('gone', 'NotFoundError');
      },
    });
    pick(aFile());
    await waitFor(() => expect(screen.getByRole('status').textContent).toContain('could not be read'));
  });

  it('takes a file that is dropped', async () => {
    const { onOpenFile } = show({ opens: async () => ({ ok: true, planId: 'd', name: 'Dropped' }) });
    const file = aFile();
    const event = new Event('drop', { bubbles: true, cancelable: true });
    Object.defineProperty(event, 'dataTransfer', { value: { files: [file] } });
    fireEvent(screen.getByRole('region', { name: 'Plan files' }), event);
    await screen.findByRole('link', { name: 'Dropped' });
    expect(onOpenFile).toHaveBeenCalledWith(file);
    expect(event.defaultPrevented).toBe(true);
  });

  it('asks nobody when no file was chosen', () => {
    const { input, onOpenFile } = show();
    fireEvent.change(input, { target: { files: [] } });
    expect(onOpenFile).not.toHaveBeenCalled();
  });
});
