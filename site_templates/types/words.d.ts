// What words.js adds: the scripts' own words in the language of the site.

/** What words_here.js hands over when a site is made; nothing but English needs it. */
interface KnownWords {
  /** BCP 47; dates and numbers are written as there. */
  language: string;
  /** By the English; the forms of a number as gettext orders them. */
  texts: Record<string, string | string[]>;
  /** The way from the root of this site to that of the whole course, for all languages. */
  whole?: string;
}

/** The names that stand in braces in a text. */
type Gap<T extends string> = T extends `${string}{${infer Name}}${infer Rest}` ? Name | Gap<Rest> : never;

type Value = string | number;

/** What a text has to be given: nothing, or a value for each of its gaps and for nothing else. */
type Given<Name extends string> = [Name] extends [never] ? [values?: undefined] : [values: Record<Name, Value>];

interface Words {
  language: string;
  /** Says a text, which must be written out so that catalogues take it up. */
  say<T extends string>(text: T, ...given: Given<Gap<T>>): string;
  /** Says a text with a number in it; {count} is the number. */
  sayMany<T extends string>(
    one: string, many: T, count: number, ...given: Given<Exclude<Gap<T>, "count">>
  ): string;
  /** Says a text in whose gaps elements stand, as parts in the order of the language. */
  sayParts<T extends string>(text: T, values: Record<Gap<T>, Value | Node>): (string | Node)[];
  /** Fills the gaps of a text that is said already. */
  fill(text: string, values: Record<string, Value>): string;
  /** Writes a number with the language's decimal sign, and so many digits after it. */
  number(value: number, digits?: number): string;
  /** Joins words as a sentence does: a, b and c. */
  join(list: string[]): string;
}

interface WordsScript {
  speakIn(known: KnownWords): Words;
}
