import { describe, expect, test } from 'vitest';
import { hearers, toldFact } from '../../../app/platform/hearers.ts';
import { randomIds } from '../../../app/platform/random-ids.ts';
import { ringLog } from '../../../app/platform/ring-log.ts';
import { startHiddenTicker, type TickingWorker } from '../../../app/platform/sound/hidden-ticker.ts';
import { fakeClocks } from '../../fakes/fake-clocks.ts';
import { memoryLog } from '../../fakes/memory-log.ts';

describe('random ids', () => {
  test('are 22 letters that need no escaping, and differ', () => {
    const ids = randomIds((bytes) => crypto.getRandomValues(bytes));
    const made = Array.from({ length: 2000 }, () => ids.newId());
    expect(made.every((id) => /^[A-Za-z0-9_-]{22}$/.test(id))).toBe(true);
    expect(new Set(made).size).toBe(2000);
  });

  test('use every letter alike', () => {
    let next = 0;
    const ids = randomIds((bytes) => {
      for (let at = 0; at < bytes.length; at += 1) bytes[at] = (next + at) % 256;
      next += bytes.length;
    });
    const letters = Array.from({ length: 128 }, () => ids.newId()).join('');
    const counts = new Map<string, number>();
    for (const letter of letters) counts.set(letter, (counts.get(letter) ?? 0) + 1);
    expect(counts.size).toBe(64);
    expect(new Set(counts.values()).size).toBe(1);
  });
});

describe('the log in memory', () => {
  test('keeps the last 200 notes with their wall time', () => {
    const clocks = fakeClocks({ wallMs: 5000 });
    const log = ringLog(clocks.clocks);
    for (let at = 0; at < 250; at += 1) log.note('looked', at);
    expect(log.notes()).toHaveLength(200);
    expect(log.notes()[0]).toEqual({ wallMs: 5000, what: 'looked', detail: '50' });
  });

  test('keeps text of whatever was caught, short, and never throws', () => {
    const log = ringLog(fakeClocks().clocks);
    const loop: Record<string, unknown> = {};
    loop['self'] = loop;
    for (const detail of [new TypeError('gone'), loop, { a: 1 }, undefined, null, Symbol('s'), 'x'.repeat(5000)]) {
      expect(() => log.note('caught', detail)).not.toThrow();
    }
    const details = log.notes().map(({ detail }) => detail);
    expect(details.slice(0, 5)).toEqual(['TypeError: gone', 'unreadable detail', '{"a":1}', '', 'null']);
    expect(details.every((detail) => detail.length <= 300)).toBe(true);
  });
});

describe('hearers', () => {
  test('hear in turn, the same function twice when it listens twice, and may leave while told', () => {
    const { tell, listen } = hearers<number>();
    const heard: number[] = [];
    const hear = (news: number) => heard.push(news);
    const stopOne = listen(hear);
    listen(hear);
    listen(() => stopOne());
    tell(1);
    tell(2);
    expect(heard).toEqual([1, 1, 2]);
  });

  test('of a fact are told only when it is another', () => {
    const { become, listen, fact } = toldFact<'a' | 'b'>('a');
    const heard: string[] = [];
    listen((now) => heard.push(now));
    become('a');
    become('b');
    become('b');
    expect(heard).toEqual(['b']);
    expect(fact()).toBe('b');
  });
});

describe('the hidden ticker', () => {
  const fakeWorker = () => {
    const worker = {
      onmessage: null as TickingWorker['onmessage'],
      onerror: null as TickingWorker['onerror'],
      isEnded: false,
      terminate: () => {
        worker.isEnded = true;
      },
    };
    return worker;
  };

  test('calls back at each tick of its worker until it is stopped', () => {
    const worker = fakeWorker();
    let ticks = 0;
    const stop = startHiddenTicker(
      () => worker,
      () => (ticks += 1),
      memoryLog(),
    );
    worker.onmessage?.({} as MessageEvent);
    worker.onmessage?.({} as MessageEvent);
    expect(ticks).toBe(2);
    stop();
    stop();
    expect(worker.isEnded).toBe(true);
  });

  test('does without where there are no workers, and notes it', () => {
    const log = memoryLog();
    const none = () => {
      throw new Error('no workers');
    };
    const stop = startHiddenTicker(none, () => {}, log);
    expect(() => stop()).not.toThrow();
    expect(log.whats()).toEqual(['ticker: no worker']);
  });
});
