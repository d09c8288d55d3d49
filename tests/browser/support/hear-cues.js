// Runs on the audio thread, where nothing that the page does can hold it up. Listens to what comes in and tells when a
// sound begins and how far it has been loud.
const LOUD = 0.02;
const AUDIBLE = 0.0005;
const GAP_FRAMES = 2400;
const TELL_FRAMES = 4800;

class HearCues extends AudioWorkletProcessor {
  quietFrames = GAP_FRAMES;
  lastAudible = -1;
  toldAt = 0;

  process([input]) {
    const samples = input?.[0] ?? [];
    for (let at = 0; at < samples.length; at++) this.hear(Math.abs(samples[at]), currentFrame + at);
    if (samples.length === 0) this.quietFrames += 128;
    if (this.lastAudible >= this.toldAt && currentFrame - this.toldAt > TELL_FRAMES) {
      this.port.postMessage({ what: 'audible', frame: this.lastAudible });
      this.toldAt = currentFrame;
    }
    return true;
  }

  hear(level, frame) {
    if (level > AUDIBLE) this.lastAudible = frame;
    if (level <= LOUD) {
      this.quietFrames += 1;
      return;
    }
    if (this.quietFrames >= GAP_FRAMES) this.port.postMessage({ what: 'onset', frame });
    this.quietFrames = 0;
  }
}

registerProcessor('hear-cues', HearCues);
