import { describe, expect, it } from 'vitest';
import { lies, sceneValues, staysDown } from '../../../../app/screens/hall/scene-values.ts';
import { bandRow, pressUp, running, squat } from './hall-builders.tsx';

const next = { figure: bandRow, turn: 'stay', straightIn: false } as const;

describe('what stands in the scene', () => {
  it('lets the next move in once the tens place is free, with its kit', () => {
    const nine = sceneValues({ ...running, digits: '9', next });
    expect(nine.next?.figure.moveId).toBe('band-row');
    expect(nine.kit).toEqual(bandRow.kit);
    const ten = sceneValues({ ...running, digits: '10', next });
    expect(ten.next).toBeNull();
    expect(ten.kit).toEqual([]);
  });

  it('lays out the kit of the coming move in a changeover, and none while everyone has it', () => {
    expect(sceneValues({ ...running, kind: 'changeover', main: bandRow }).kit).toEqual(bandRow.kit);
    expect(sceneValues({ ...running, main: bandRow }).kit).toEqual([]);
  });

  it('goes by the drawing: an option may stand where its move lies', () => {
    expect(lies(pressUp)).toBe(true);
    expect(lies({ ...pressUp, figure: 'wallPress' })).toBe(false);
    expect(lies(squat)).toBe(false);
    expect(lies(null)).toBe(false);
  });

  it('has a word for staying down, and none for staying up', () => {
    const bridge = { ...next, figure: { ...pressUp, figure: 'bridge' } };
    expect(staysDown(pressUp, bridge)).toBe(true);
    expect(staysDown(squat, next)).toBe(false);
    expect(staysDown(pressUp, { ...next, turn: 'up' })).toBe(false);
    expect(staysDown(null, next)).toBe(false);
  });
});
