import type { Page } from 'playwright-core';
import type { Box } from './pixels.ts';

/** A text as it is drawn: a box round the ink of each letter, not round the line it stands in. */
export type TextSeen = {
  readonly text: string;
  /** The class of what it stands in. */
  readonly of: string;
  readonly fontPx: number;
  readonly lines: number;
  readonly letters: readonly Box[];
};

/** Something drawn: the box round all of it, and one round each limb or other part. */
export type DrawnSeen = { readonly what: string; readonly box: Box; readonly parts: readonly Box[] };

/** One digit of the time left; `ink` is that of a full one, to which a hollow one adds half its outline. */
export type DigitSeen = { readonly text: string; readonly place: Box; readonly ink: Box };

/** A button: its name, its box, and the largest square inside it, in px, of which every point presses it. */
export type ControlSeen = { readonly name: string; readonly box: Box; readonly squarePx: number };

/** What stands on the hall's screen, in CSS px. */
export type HallBoxes = {
  readonly texts: readonly TextSeen[];
  /** The digits of the time left from left to right: the place each has, and the digit in it. */
  readonly digits: readonly DigitSeen[];
  readonly drawn: readonly DrawnSeen[];
  readonly controls: readonly ControlSeen[];
};

/** Measures the hall as it stands now. */
export function readHallBoxes(page: Page): Promise<HallBoxes> {
  return page.evaluate(readInPage);
}

function readInPage(): HallBoxes {
  const root = document.querySelector('[data-hall]');
  if (root === null) throw new Error('there is no hall on this page');
  const all = (selector: string): Element[] => [...root.querySelectorAll(selector)];
  const boxOf = ({ left, top, right, bottom }: DOMRect): Box => ({ left, top, right, bottom });

  const isSeen = (element: Element): boolean =>
    element.checkVisibility({ opacityProperty: true, visibilityProperty: true }) &&
    element.closest('.spoken-only') === null;

  const canvas = document.createElement('canvas').getContext('2d');
  const measure = (text: string, px: number, { fontWeight, fontFamily }: CSSStyleDeclaration): TextMetrics => {
    if (canvas === null) throw new Error('nothing to measure letters with');
    canvas.font = `${fontWeight} ${px}px ${fontFamily}`;
    return canvas.measureText(text);
  };
  // Measures come in whole px, so that they are taken large; only the foot of the letters is a whole px in the line too.
  const LARGE_PX = 2000;
  const inkOf = (text: string, line: DOMRect, style: CSSStyleDeclaration): Box => {
    const shown = style.textTransform === 'uppercase' ? text.toUpperCase() : text;
    const px = Number.parseFloat(style.fontSize);
    const large = measure(shown, LARGE_PX, style);
    const foot = line.top + measure(shown, px, style).fontBoundingBoxAscent;
    const scale = px / LARGE_PX;
    return {
      left: line.left - scale * large.actualBoundingBoxLeft,
      top: foot - scale * large.actualBoundingBoxAscent,
      right: line.left + scale * large.actualBoundingBoxRight,
      bottom: foot + scale * large.actualBoundingBoxDescent,
    };
  };

  const textsOf = (node: Node): TextSeen[] => {
    const parent = node.parentElement;
    const text = node.textContent ?? '';
    if (parent === null || text.trim() === '' || !isSeen(parent) || parent.closest('.hall-digits') !== null) return [];
    const style = getComputedStyle(parent);
    const range = document.createRange();
    range.selectNodeContents(node);
    const lines = new Set([...range.getClientRects()].map(({ top }) => Math.round(top))).size;
    const letters = [...text].flatMap((letter, index) => {
      if (letter.trim() === '') return [];
      range.setStart(node, index);
      range.setEnd(node, index + 1);
      return [inkOf(letter, range.getBoundingClientRect(), style)];
    });
    const of = parent.closest('[class]')?.getAttribute('class') ?? '';
    return [{ text, of, fontPx: Number.parseFloat(style.fontSize), lines, letters }];
  };

  const digitOf = (place: Element): DigitSeen => {
    const range = document.createRange();
    range.selectNodeContents(place);
    const text = place.textContent ?? '';
    const ink = inkOf(text, range.getBoundingClientRect(), getComputedStyle(place));
    return { text, place: boxOf(place.getBoundingClientRect()), ink };
  };

  const nodes: Node[] = [];
  const walker = document.createTreeWalker(root, NodeFilter.SHOW_TEXT);
  while (walker.nextNode()) nodes.push(walker.currentNode);

  const largestSquare = (hits: boolean[][]): number => {
    let most = 0;
    const sides = hits.map((row) => row.map(() => 0));
    for (const [y, row] of hits.entries()) {
      for (const [x, isHit] of row.entries()) {
        const around = [sides[y - 1]?.[x], sides[y]?.[x - 1], sides[y - 1]?.[x - 1]].map((one) => one ?? 0);
        const side = isHit ? 1 + Math.min(...around) : 0;
        const line = sides[y];
        if (line !== undefined) line[x] = side;
        most = Math.max(most, side);
      }
    }
    return most;
  };

  /** Whole px from the first to the last, every third of them: a point between two px may be taken to either. */
  const STEP_PX = 3;
  const pointsOf = (from: number, to: number): number[] => {
    const [first, last] = [Math.ceil(from), Math.ceil(to) - 1];
    const steps = Array.from({ length: Math.ceil((last - first) / STEP_PX) }, (_, at) => first + at * STEP_PX);
    return [...steps, last];
  };
  const squareOf = (button: Element): number => {
    const { left, top, right, bottom, width, height } = button.getBoundingClientRect();
    const hits = pointsOf(top, bottom).map((y) =>
      pointsOf(left, right).map((x) => document.elementFromPoint(x, y)?.closest('button') === button),
    );
    if (hits.flat().every((isHit) => isHit)) return Math.min(width, height);
    return (largestSquare(hits) - 1) * STEP_PX + 1;
  };

  /** The rims of limbs are field and cover nothing that they should not. */
  const partsOf = (element: Element): Box[] => {
    const parts = [...element.querySelectorAll('path:not(.casing), span')];
    return (parts.length === 0 ? [element] : parts).map((part) => boxOf(part.getBoundingClientRect()));
  };

  const DRAWN = {
    main: '.main-figure > .figure g',
    lower: '.lower-figure > .figure g',
    next: '.next-figure > .figure g',
    kit: '.kit .kit-drawing',
    arrow: '.turn-arrow',
    lid: '.lid',
    pads: '.pads',
    rounds: '.rounds .square',
    floor: '.floor-left',
    gate: '.gate',
  };
  return {
    texts: nodes.flatMap(textsOf),
    digits: all('.hall-digits > span').map(digitOf),
    drawn: Object.entries(DRAWN).flatMap(([what, selector]) =>
      all(selector)
        .filter(isSeen)
        .map((element) => ({ what, box: boxOf(element.getBoundingClientRect()), parts: partsOf(element) })),
    ),
    controls: all('button').map((button) => ({
      name: button.getAttribute('aria-label') ?? button.textContent ?? '',
      box: boxOf(button.getBoundingClientRect()),
      squarePx: squareOf(button),
    })),
  };
}
