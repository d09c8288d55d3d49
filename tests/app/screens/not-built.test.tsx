import { cleanup, render, screen } from '@testing-library/preact';
import { afterEach, describe, expect, it } from 'vitest';
import { NotBuilt, NothingHere } from '../../../app/screens/not-built.tsx';

afterEach(cleanup);

describe('an address without a page', () => {
  it('says that its part is not built yet, and leads back', () => {
    render(<NotBuilt title="Courses" />);
    expect(screen.getByRole('heading', { name: 'Courses' })).toBeTruthy();
    expect(screen.getByText(/not built yet/)).toBeTruthy();
    expect(screen.getByRole('link', { name: 'Start' }).getAttribute('href')).toBe('#/');
  });

  it('says whatever else is the reason', () => {
    render(<NothingHere title="Plan" text="There is no such plan on this phone." />);
    expect(screen.getByRole('status').textContent).toBe('There is no such plan on this phone.');
    expect(screen.queryByText(/not built/)).toBeNull();
  });
});
