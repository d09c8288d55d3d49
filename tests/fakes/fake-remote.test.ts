import { remoteContract } from '../contracts/remote.ts';
import { fakeRemote } from './fake-remote.ts';

remoteContract('without a headset', () => {
  const remote = fakeRemote();
  return { remote, key: remote.key, title: remote.title };
});
