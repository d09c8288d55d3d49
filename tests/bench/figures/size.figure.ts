import { inject, test } from 'vitest';
import { LIMITS } from '../../checks/size.mjs';
import { noteFigure } from '../figure-lines.ts';

test('size', ({ task }) => {
  const { firstPaintBytes, withHallBytes } = inject('sizes');
  const figure = 'page script, gzip';
  const unit = 'bytes';
  noteFigure(task, {
    figure,
    where: 'before first paint',
    value: firstPaintBytes,
    limit: LIMITS.firstPaintBytes,
    unit,
  });
  noteFigure(task, {
    figure,
    where: 'with the hall',
    value: withHallBytes ?? Number.NaN,
    limit: LIMITS.withHallBytes,
    unit,
  });
});
