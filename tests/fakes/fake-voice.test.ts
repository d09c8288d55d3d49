import { voiceContract } from '../contracts/voice.ts';
import { fakeClocks } from './fake-clocks.ts';
import { fakeVoice } from './fake-voice.ts';

voiceContract('into memory', () => {
  const voice = fakeVoice(fakeClocks().clocks);
  return { voice, said: () => voice.said().map(({ line }) => line), become: voice.become, pass: async () => {} };
});
