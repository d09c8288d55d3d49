import { describe, expect, it } from 'vitest';
import { planFileSentence } from '../../../app/words/plan-file-words.ts';
import type { PlanFileFault } from '../../../src/exchange/plan-file.ts';
import type { FieldPath } from '../../../src/records/parsed.ts';
import { readTopJson } from '../../builders/stored.ts';

const ENTRY: FieldPath = ['plan', 'blocks', 1, 'entries', 2];
const say = (reason: PlanFileFault, field: FieldPath): string => planFileSentence({ ok: false, reason, field });

/** As much of a JSON Schema as the walk below looks at. */
type Schema = {
  readonly $ref?: string;
  readonly $defs?: Readonly<Record<string, Schema>>;
  readonly properties?: Readonly<Record<string, Schema>>;
  readonly items?: Schema;
  readonly oneOf?: readonly Schema[];
  readonly anyOf?: readonly Schema[];
};

/** Every field that a plan file can have, lists by their first item, read from its JSON Schema. */
function everyField(): readonly FieldPath[] {
  const top: Schema = Object(readTopJson('assets/schema/plan-file.schema.json'));
  const walk = ({ $ref, oneOf = [], anyOf = [], ...node }: Schema, path: FieldPath): readonly FieldPath[] => {
    const named = $ref === undefined ? undefined : top.$defs?.[$ref.split('/').at(-1) ?? ''];
    if (named !== undefined) return walk(named, path);
    const fields = Object.entries(node.properties ?? {}).flatMap(([key, inner]) => walk(inner, [...path, key]));
    const items = node.items === undefined ? [] : walk(node.items, [...path, 0]);
    return [path, ...[...oneOf, ...anyOf].flatMap((inner) => walk(inner, path)), ...fields, ...items];
  };
  const fields = new Map(walk(top, []).map((path) => [JSON.stringify(path), path]));
  return [...fields.values()].filter((path) => path.length > 0);
}

describe('the sentence for a refused plan file', () => {
  it('names the field in words and the bounds it has', () => {
    expect(say('badField', [...ENTRY, 'dose', 'seconds'])).toBe(
      'Block 2, entry 3: the work time must be 5 seconds to 60 minutes, in whole seconds.',
    );
    expect(say('badField', [...ENTRY, 'seconds'])).toBe(
      'Block 2, entry 3: the length must be 1 second to 10 minutes, in whole seconds.',
    );
    expect(say('badField', ['plan', 'name'])).toBe('The name must be 1 to 80 characters on one line.');
    expect(say('badField', ['moves', 2, 'options', 0, 'hallName'])).toBe(
      'Move 3, option 1: the short name for the hall must be 1 to 10 characters.',
    );
    expect(say('badField', [...ENTRY, 'forSome', 'dose', 'count'])).toBe(
      'Block 2, entry 3, second dose: the count must be a whole number from 1 to 500.',
    );
  });

  it('says what is missing, unknown, doubled or out of place', () => {
    expect(say('missing', ['plan', 'blocks', 0, 'rounds'])).toBe('Block 1: the number of rounds is missing.');
    expect(say('unknownField', [...ENTRY, 'colour'])).toBe(
      'Block 2, entry 3: "colour" is not something this version knows.',
    );
    expect(say('sameKeyTwice', ['plan', 'rev'])).toBe('"rev" stands twice.');
    expect(say('usedTwice', [...ENTRY, 'id'])).toBe(
      'Block 2, entry 3: the id is used twice and may be used only once.',
    );
    expect(say('noSuchRound', [...ENTRY, 'byRound', 0, 'round'])).toBe(
      'Block 2, entry 3, round change 1: the round is beyond the rounds of the block.',
    );
    expect(say('unknownMove', [...ENTRY, 'moveId'])).toBe(
      'Block 2, entry 3: the move is neither in the library nor in the file.',
    );
    expect(say('clash', ['moves', 0, 'id'])).toMatch(/^Move 1: the library has another move under this id/);
    expect(say('noLowerOption', ['moves', 0, 'options'])).toBe(
      'Move 1: a circuit move needs at least one lower option.',
    );
  });

  it.each(['tooLarge', 'notJson', 'tooDeep', 'notAPlan', 'tooNew'] as const)(
    'speaks of the whole file when it is %s',
    (reason) => {
      expect(say(reason, ['v'])).toMatch(/^This (plan )?file .*\.$/);
    },
  );

  it('has words for every field there is', () => {
    const fields = everyField();
    expect(fields.length).toBeGreaterThan(70);
    for (const field of fields) {
      const sentence = say('badField', field);
      expect(sentence, field.join('.')).not.toContain('something else than it is');
      expect(sentence, field.join('.')).toMatch(/^\p{Lu}.* must be .*[^.]\.$/u);
    }
  });

  it('gives two fields of one thing different words', () => {
    const sentences = everyField().map((field) => say('missing', field));
    const twice = sentences.filter((sentence, at) => sentences.indexOf(sentence) !== at);
    // A dose and its kind are one thing to people; so are a format and its kind.
    expect(new Set(twice.map((sentence) => sentence.replace(/^.*: /, '')))).toEqual(
      new Set(['the dose is missing.', 'the format is missing.']),
    );
  });

  it('shows a hostile name short and on one line', () => {
    const sentence = say('unknownField', ['plan', `a\nb\u202e${'x'.repeat(500)}`]);
    expect(sentence).toMatch(/^"a b x{36}" is not something this version knows\.$/);
  });
});
