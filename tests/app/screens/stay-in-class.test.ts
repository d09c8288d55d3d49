import { describe, expect, it } from 'vitest';
import { stayInClass } from '../../../app/screens/stay-in-class.ts';
import { fakeHistoryWindow } from '../../fakes/fake-history-window.ts';

/** Start page, plans, then the hall, where a class runs from then on. */
function classInThirdEntry() {
  const browser = fakeHistoryWindow('#/');
  const live = { is: false };
  const stop = stayInClass(browser.page, () => live.is);
  browser.follow('#/plans');
  browser.follow('#/hall/a');
  live.is = true;
  return { browser, live, stop };
}

const ENTRIES = ['#/', '#/plans', '#/hall/a'];

describe('the history while a class runs', () => {
  it('comes back from Back and adds no entry', () => {
    const { browser } = classInThirdEntry();
    browser.travel(-1);
    browser.settle();
    expect(browser.present()).toBe('#/hall/a');
    expect(browser.hrefs()).toEqual(ENTRIES);
  });

  it('comes back from a jump over several entries', () => {
    const { browser } = classInThirdEntry();
    browser.travel(-2);
    browser.settle();
    expect(browser.present()).toBe('#/hall/a');
    expect(browser.hrefs()).toEqual(ENTRIES);
  });

  it('comes back from Back pressed again before the first was undone', () => {
    const { browser } = classInThirdEntry();
    browser.travel(-1);
    browser.travel(-1);
    browser.settle();
    expect(browser.present()).toBe('#/hall/a');
    expect(browser.hrefs()).toEqual(ENTRIES);
  });

  it('comes back from Forward into what was open before', () => {
    const { browser, live } = classInThirdEntry();
    live.is = false;
    browser.follow('#/review');
    browser.travel(-1);
    browser.settle();
    live.is = true;
    browser.travel(1);
    browser.settle();
    expect(browser.present()).toBe('#/hall/a');
    expect(browser.hrefs()).toEqual([...ENTRIES, '#/review']);
  });

  it('comes back from an address typed in, however often it is tried', () => {
    const { browser } = classInThirdEntry();
    for (const to of ['#/backups', '#/moves', '#/moves']) {
      browser.follow(to);
      browser.settle();
      expect(browser.present()).toBe('#/hall/a');
    }
    browser.travel(1);
    browser.settle();
    expect(browser.present()).toBe('#/hall/a');
    browser.travel(-1);
    browser.settle();
    expect(browser.present()).toBe('#/hall/a');
    expect(browser.hrefs()).toEqual([...ENTRIES, '#/moves']);
  });

  it('stays where it is when the same address is opened again', () => {
    const { browser } = classInThirdEntry();
    browser.follow('#/hall/a');
    browser.settle();
    expect(browser.present()).toBe('#/hall/a');
    browser.travel(-1);
    browser.settle();
    expect(browser.present()).toBe('#/hall/a');
    expect(browser.hrefs()).toEqual(ENTRIES);
  });

  it('does not leave the app when its first entry is opened again', () => {
    const browser = fakeHistoryWindow('#/hall/a');
    stayInClass(browser.page, () => true);
    browser.follow('#/hall/a');
    browser.settle();
    expect(browser.hasLeft()).toBe(false);
  });

  it('puts the entry of the class back where another took its place', () => {
    const { browser } = classInThirdEntry();
    browser.swap('#/courses');
    browser.settle();
    expect(browser.present()).toBe('#/hall/a');
    expect(browser.hrefs()).toEqual(ENTRIES);
  });

  it('lets Back go where it leads once the class is over', () => {
    const { browser, live } = classInThirdEntry();
    browser.travel(-1);
    browser.settle();
    live.is = false;
    browser.travel(-1);
    browser.settle();
    expect(browser.present()).toBe('#/plans');
  });

  it('knows its entry again after a reload in the middle of the class', () => {
    const { browser, stop } = classInThirdEntry();
    stop();
    stayInClass(browser.page, () => true);
    browser.travel(-2);
    browser.settle();
    expect(browser.present()).toBe('#/hall/a');
    expect(browser.hrefs()).toEqual(ENTRIES);
  });

  it('keeps what others wrote over an entry', () => {
    const browser = fakeHistoryWindow('#/');
    browser.page.history.replaceState({ scroll: 80 }, '');
    stayInClass(browser.page, () => false);
    expect(browser.page.history.state).toEqual({ scroll: 80, step: 0 });
  });

  it('leaves the history alone once stopped', () => {
    const { browser, stop } = classInThirdEntry();
    stop();
    browser.travel(-1);
    browser.settle();
    expect(browser.present()).toBe('#/plans');
  });
});
