// The words of the pacer, spoken by the device in the language they are in.
(function (root) {
  "use strict";

  /** @param {string} tag */
  function listParts(tag) {
    return tag.toLowerCase().split(/[-_]/); // some devices write es_MX
  }

  /** @type {Tempoleaf["findVoice"]} */
  function findVoice(voices, language) {
    const [wanted, ...country] = listParts(language);
    /** @param {typeof voices[number]} voice */
    const weigh = (voice) => {
      const [, ...own] = listParts(voice.lang);
      // One that isn't on the device sends the words to somebody else.
      return (voice.localService ? 2 : 0) + (own.join() === country.join() ? 1 : 0);
    };
    return voices
      .filter((voice) => listParts(voice.lang)[0] === wanted)
      .reduce(
        (/** @type {typeof voices[number] | null} */ best, voice) =>
          best && weigh(best) >= weigh(voice) ? best : voice,
        null,
      );
  }

  /** @type {Tempoleaf["speak"]} */
  function speak(words) {
    const { speechSynthesis, SpeechSynthesisUtterance } = root;
    if (speechSynthesis) {
      const { language } = root.tempoleaf.words;
      const speech = new SpeechSynthesisUtterance(words);
      speech.lang = language;
      speech.voice = findVoice(speechSynthesis.getVoices(), language);
      speechSynthesis.cancel();
      speechSynthesis.speak(speech);
    }
  }

  root.tempoleaf = Object.assign(
    root.tempoleaf || {},
    /** @satisfies {PacerVoiceScript} */ ({ findVoice, speak }),
  );
})(globalThis);
