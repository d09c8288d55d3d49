import { cleanup, fireEvent, render, screen } from '@testing-library/preact';
import { afterEach, describe, expect, it, vi } from 'vitest';
import { Start, type StartProps } from '../../../../app/screens/start/start.tsx';

afterEach(cleanup);

const READY = { planId: 'evening 1', name: 'Evening strength', hallMs: 28 * 60_000, figure: 'squat' };
const OPEN = { planId: 'short', name: 'Short and low', atMs: 754_000, figure: 'row' };

function show(change: Partial<StartProps> = {}) {
  const onTakeNewVersion = vi.fn();
  render(
    <Start
      ready={READY}
      resume={null}
      notice=""
      offline="ready"
      isSecure={true}
      onTakeNewVersion={onTakeNewVersion}
      {...change}
    />,
  );
  return { onTakeNewVersion };
}

const linkNames = (): readonly string[] => screen.getAllByRole('link').map((link) => link.textContent ?? '');

describe('the start page', () => {
  it('has one link named "Run this class" that leads to the hall of the plan', () => {
    show();
    const links = screen.getAllByRole('link', { name: 'Run this class' });
    expect(links.map((link) => link.getAttribute('href'))).toEqual(['#/hall/evening%201']);
  });

  it('says the name and the minutes of the class in words', () => {
    show();
    expect(screen.getByText('Evening strength')).toBeTruthy();
    expect(screen.getByText('28 minutes')).toBeTruthy();
  });

  it('shows a class that has not ended first, and still one link to run another', () => {
    show({ resume: OPEN });
    expect(linkNames().slice(0, 2)).toEqual(['Back into the class', 'Run this class']);
    expect(screen.getByRole('link', { name: 'Back into the class' }).getAttribute('href')).toBe('#/hall/short');
    expect(screen.getByText(/Last seen 12:34 after its start/)).toBeTruthy();
  });

  it('says what was found when the app opened', () => {
    show({ notice: 'A class cannot be read.' });
    expect(screen.getByRole('alert').textContent).toBe('A class cannot be read.');
  });

  it('has nothing to run while no plan is known', () => {
    show({ ready: null });
    expect(screen.queryByRole('link', { name: 'Run this class' })).toBeNull();
  });

  it('leads everywhere else', () => {
    show();
    const nav = screen.getByRole('navigation');
    const hrefs = [...nav.querySelectorAll('a')].map((link) => link.getAttribute('href'));
    expect(hrefs).toEqual(['#/plans', '#/review', '#/moves', '#/courses', '#/backups']);
  });
});

describe('being ready without a network', () => {
  const said = (): string => screen.getByRole('status').textContent ?? '';

  it.each(['ready', 'waiting'] as const)('is promised when the copy is %s', (offline) => {
    show({ offline });
    expect(said()).toContain('opens without a network');
  });

  it.each(['installing', 'failed', 'notSupported'] as const)('is not promised when the copy is %s', (offline) => {
    show({ offline });
    expect(said()).not.toContain('opens without a network');
    expect(said()).not.toBe('');
  });

  it('is not promised on an address without https, whatever the copy says, and the reason is given', () => {
    show({ offline: 'ready', isSecure: false });
    expect(said()).toContain('not https');
    expect(said()).not.toContain('opens without a network');
  });
});

describe('a new version', () => {
  it('is opened when asked', () => {
    const { onTakeNewVersion } = show({ offline: 'waiting' });
    expect(screen.getByText('A new version is ready.')).toBeTruthy();
    fireEvent.click(screen.getByRole('button', { name: 'Open the new version' }));
    expect(onTakeNewVersion).toHaveBeenCalledTimes(1);
  });

  it('is not spoken of while none waits', () => {
    show({ offline: 'ready' });
    expect(screen.queryByRole('button')).toBeNull();
  });

  it('is not offered while a class has not ended', () => {
    show({ offline: 'waiting', resume: OPEN });
    expect(screen.queryByRole('button')).toBeNull();
  });
});
