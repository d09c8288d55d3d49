import { describe, expect, test } from 'vitest';
import { browserVoice, type Synth } from '../../../../app/platform/voice/browser-voice.ts';
import { voiceContract } from '../../../contracts/voice.ts';
import { fakeClocks } from '../../../fakes/fake-clocks.ts';
import { memoryLog } from '../../../fakes/memory-log.ts';

type Utterance = {
  readonly text: string;
  lang: string;
  voice: SpeechSynthesisVoice | null;
  onend: (() => void) | null;
  onerror: ((event: { readonly error: string }) => void) | null;
};

/** What becomes of a line: it ends, it fails, or nothing is ever heard of it. */
type Fate = 'ends' | 'fails' | 'stuck' | 'throws';

const voiceNamed = (lang: string, localService: boolean, isDefault = false): SpeechSynthesisVoice => ({
  lang,
  localService,
  default: isDefault,
  name: `${lang} ${localService}`,
  voiceURI: `${lang} ${localService} ${isDefault}`,
});

/** A browser's speech that lasts a second a line and misbehaves on demand. */
class FakeSynth {
  speaking = false;
  pending = false;
  cancels = 0;
  /** Some browsers say nothing of a line that was called off. */
  tellsCancels = true;
  readonly begun: Utterance[] = [];
  fate: Fate = 'ends';
  voices: SpeechSynthesisVoice[] = [voiceNamed('en-GB', true)];
  private present: Utterance | null = null;
  private onVoices: (() => void) | null = null;
  private readonly clocks: ReturnType<typeof fakeClocks>;
  constructor(clocks: ReturnType<typeof fakeClocks>) {
    this.clocks = clocks;
  }
  getVoices(): SpeechSynthesisVoice[] {
    return this.voices;
  }
  addEventListener(_type: string, hear: () => void): void {
    this.onVoices = hear;
  }
  arrive(voices: SpeechSynthesisVoice[]): void {
    this.voices = voices;
    this.onVoices?.();
  }
  cancel(): void {
    this.cancels += 1;
    this.speaking = false;
    if (this.tellsCancels) this.present?.onerror?.({ error: 'interrupted' });
    this.present = null;
  }
  speak(utterance: Utterance): void {
    if (this.fate === 'throws') throw new Error('no speech');
    this.begun.push(utterance);
    this.present = utterance;
    this.speaking = true;
    if (this.fate === 'stuck') return;
    const { fate } = this;
    this.clocks.timers.after(1000, () => {
      if (this.present !== utterance) return;
      this.speaking = false;
      this.present = null;
      if (fate === 'ends') utterance.onend?.();
      else utterance.onerror?.({ error: 'synthesis-failed' });
    });
  }
}

function speech(language = 'en') {
  const clocks = fakeClocks();
  const synth = new FakeSynth(clocks);
  const log = memoryLog();
  const make = (text: string): Utterance => ({ text, lang: '', voice: null, onend: null, onerror: null });
  const needs = {
    makeUtterance: (line: string) => make(line) as unknown as SpeechSynthesisUtterance,
    language,
    timers: clocks.timers,
    log,
  };
  return {
    clocks,
    synth,
    log,
    needs,
    start: () => browserVoice({ ...needs, synth: synth as unknown as Synth }),
  };
}

voiceContract('of the browser', () => {
  const { clocks, synth, needs, start } = speech();
  const real = start();
  const none = browserVoice({ ...needs, synth: undefined });
  let isAbsent = false;
  const now = () => (isAbsent ? none : real);
  return {
    voice: {
      say: (line) => now().say(line),
      hush: () => now().hush(),
      fact: () => now().fact(),
      listen: (hear) => now().listen(hear),
    },
    said: () => synth.begun.map(({ text }) => text),
    become: (how) => {
      isAbsent = how === 'absent';
      synth.fate = how === 'ok' ? 'ends' : 'fails';
    },
    pass: () => clocks.advanceSettling(10_000),
  };
});

describe('the voice of the browser', () => {
  test('has none until voices come, however late', () => {
    const { synth, start } = speech();
    synth.voices = [];
    const voice = start();
    expect(voice.fact()).toBe('absent');
    synth.arrive([voiceNamed('en-US', true)]);
    expect(voice.fact()).toBe('ok');
  });

  test('tries without a known voice: some systems list none and speak all the same', () => {
    const { synth, start, clocks } = speech();
    synth.voices = [];
    const voice = start();
    voice.say('squat');
    clocks.advance(2000);
    expect(synth.begun.map(({ text }) => text)).toEqual(['squat']);
    expect(voice.fact()).toBe('ok');
  });

  test('is absent, not failing, when a line fails and there are no voices', () => {
    const { synth, start, clocks } = speech();
    synth.voices = [];
    synth.fate = 'fails';
    const voice = start();
    voice.say('squat');
    clocks.advance(2000);
    expect(voice.fact()).toBe('absent');
  });

  test.each([
    { has: [voiceNamed('de-DE', true), voiceNamed('en-GB', false), voiceNamed('en-US', true)], takes: 'en-US' },
    { has: [voiceNamed('de-DE', true), voiceNamed('en-GB', false)], takes: 'en-GB' },
    { has: [voiceNamed('en-AU', true), voiceNamed('en-GB', true, true)], takes: 'en-GB' },
    { has: [voiceNamed('de-DE', true)], takes: undefined },
  ])('takes a local voice of the language, else any of it: $takes', ({ has, takes }) => {
    const { synth, start } = speech();
    synth.voices = has;
    start().say('squat');
    expect(synth.begun[0]?.voice?.lang).toBe(takes);
    expect(synth.begun[0]?.lang).toBe('en');
  });

  test('ends what is being said before the next line, and does not count that as failing', () => {
    const { synth, start, clocks } = speech();
    const voice = start();
    const told: string[] = [];
    voice.listen((fact) => told.push(fact));
    voice.say('squat');
    clocks.advance(300);
    voice.say('plank');
    clocks.advance(2000);
    expect(synth.begun.map(({ text }) => text)).toEqual(['squat', 'plank']);
    expect(synth.cancels).toBe(1);
    expect(voice.fact()).toBe('ok');
    expect(told).toEqual([]);
  });

  test('does not cut a later line on behalf of one that was called off without a word', () => {
    const { synth, start, clocks } = speech();
    const voice = start();
    synth.tellsCancels = false;
    voice.say('squat');
    clocks.advance(300);
    voice.say('plank');
    clocks.advance(7400);
    voice.say('march');
    clocks.advance(2000);
    expect(synth.cancels).toBe(1);
    expect(voice.fact()).toBe('ok');
  });

  test('does not cancel when nothing is said: some voices swallow the line after', () => {
    const { synth, start } = speech();
    const voice = start();
    voice.hush();
    voice.say('squat');
    expect(synth.cancels).toBe(0);
  });

  test('finds out that it is stuck and frees it for the next line', () => {
    const { synth, start, clocks } = speech();
    const voice = start();
    synth.fate = 'stuck';
    voice.say('squat');
    clocks.advance(9000);
    expect(voice.fact()).toBe('failing');
    expect(synth.speaking).toBe(false);
    synth.fate = 'ends';
    voice.say('plank');
    clocks.advance(2000);
    expect(voice.fact()).toBe('ok');
  });

  test('throws nothing when speaking throws', () => {
    const { synth, start, log } = speech();
    synth.fate = 'throws';
    const voice = start();
    expect(() => voice.say('squat')).not.toThrow();
    expect(voice.fact()).toBe('failing');
    expect(log.whats()).toContain('voice: say threw');
  });
});
