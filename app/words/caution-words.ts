/** Above all cautions. */
export const COMES_FIRST =
  'The rules of your place and your own licensed practice come first. Hallpace is not a medical device and gives no medical advice.';

/** One caution before a class. */
export type Caution = { readonly about: string; readonly text: string };

/**
 * In our own words. The three questions: Riebe et al. 2015 (ACSM). Signs to stop: ACSM lists of 1995 and 2000. Space:
 * 45 square feet a person, an industry figure; the 2 x 2 m, the shoes and the own pace are common practice. Heat:
 * Armstrong et al. 2007 (ACSM).
 */
export const CAUTIONS: readonly Caution[] = [
  {
    about: 'Own pace',
    text: 'Say it at the start: your own pace is right, a lower option is as good, and anyone may stop at any time.',
  },
  {
    about: 'Who is new',
    text: 'Ask three things: how active they are now; whether they have signs or a known disease of heart, vessels, sugar or kidneys; how hard they want to work. Signs or a disease: to a doctor first.',
  },
  {
    about: 'Stop at once',
    text: 'Pain or pressure in the chest. Breath that is far too short, or a wheeze. Dizzy, confused or stumbling. Pale, blue or cold and clammy skin, feeling sick. Cramp in the legs. And whenever someone asks to stop.',
  },
  {
    about: 'Space',
    text: '4.2 m² for each person; 2 × 2 m each with bands and for jumps. Nothing to trip on, a dry floor.',
  },
  { about: 'Shoes', text: 'Laced shoes that hold sideways; for work on mats bare feet or shoes, not socks.' },
  {
    about: 'Heat',
    text: 'By wet-bulb globe temperature: up to 27.8 °C as usual; up to 30.0 °C as much rest as work for whoever is not used to it; up to 32.2 °C nothing hard, and nothing for who is not used to it; above that no class. Water in reach.',
  },
];
