/** Phrases that people say to each other all day, in a surgery as anywhere. */

/**
 * Words of everybody's talk, of those that phrases are made of. Chosen by hand, from memory: what
 * matters is which phrases they come to, which a test lists. Answers and reasons are
 * left out: they count only where they are asked for.
 */
const WORDS = new Set(
  `a again all back carry cut done down dropped dry end five for go hold home how in is it it's left
  long me minute more move moved much next no not now off okay on one out over pause please resume
  say seconds short start still take tell ten that that's the thirty time touched what what's why
  with won't`.split(/\s+/u),
);

/**
 * Whether a phrase holds nothing of the trade ("that's it", "it's down"): by its words alone nobody can
 * tell whether it was said to Seatcall. Lower case, single spaces.
 */
export const isEveryday = (phrase: string): boolean =>
  phrase.split(' ').every((word) => WORDS.has(word));
