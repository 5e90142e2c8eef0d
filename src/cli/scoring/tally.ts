/** What came of one utterance. `said` is "" where it must be refused; `heard` is what was accepted, null where nothing was. */
export type Outcome = {
  readonly group: string;
  readonly said: string;
  readonly heard: string | null;
  readonly confidence: number;
  readonly audioS: number;
  readonly workS: number;
};

/** The sums of a group. For what must be refused, `right` counts the refused and `wrong` the accepted. */
export type Tally = {
  readonly group: string;
  readonly utterances: number;
  readonly right: number;
  readonly wrong: number;
  readonly rejected: number;
  /** Words put in, left out or changed for each word said; a refused utterance has left out all. Null where nothing was said. */
  readonly wordErrorRate: number | null;
  /** Accepted though they must be refused, for each hour of such sound; null where there is none. */
  readonly falseAcceptsPerHour: number | null;
  readonly audioS: number;
  readonly realTimeFactor: number;
};

/** How few words must be put in, left out or changed to make one list of the other. */
export function wordErrors(said: readonly string[], heard: readonly string[]): number {
  let row = heard.map((_, index) => index + 1);
  said.forEach((word, i) => {
    let diagonal = i;
    let left = i + 1;
    row = row.map((above, j) => {
      const best = Math.min(above + 1, left + 1, diagonal + (heard[j] === word ? 0 : 1));
      diagonal = above;
      left = best;
      return best;
    });
  });
  return row.at(-1) ?? said.length;
}

const wordsIn = (text: string): string[] => (text === '' ? [] : text.split(/\s+/u));
const sum = (values: readonly number[]): number => values.reduce((total, value) => total + value, 0);

export function tally(group: string, outcomes: readonly Outcome[]): Tally {
  const spoken = outcomes.filter((each) => each.said !== '');
  const toRefuse = outcomes.filter((each) => each.said === '');
  const refused = outcomes.filter((each) => each.heard === null).length;
  const falselyAccepted = toRefuse.filter((each) => each.heard !== null).length;
  const right = spoken.filter((each) => each.heard === each.said).length + toRefuse.length - falselyAccepted;
  const said = sum(spoken.map((each) => wordsIn(each.said).length));
  const errors = sum(spoken.map((each) => wordErrors(wordsIn(each.said), wordsIn(each.heard ?? ''))));
  const audioS = sum(outcomes.map((each) => each.audioS));
  const refuseS = sum(toRefuse.map((each) => each.audioS));
  return {
    group,
    utterances: outcomes.length,
    right,
    wrong: outcomes.filter((each) => each.heard !== null && each.heard !== each.said).length,
    rejected: refused,
    wordErrorRate: said === 0 ? null : errors / said,
    falseAcceptsPerHour: refuseS === 0 ? null : (falselyAccepted * 3600) / refuseS,
    audioS,
    realTimeFactor: audioS === 0 ? 0 : sum(outcomes.map((each) => each.workS)) / audioS,
  };
}

/** A tally for each group in the order in which they first come, and one for all. */
export function tallies(outcomes: readonly Outcome[]): readonly Tally[] {
  const groups = [...new Set(outcomes.map((each) => each.group))];
  return [
    ...groups.map((group) =>
      tally(
        group,
        outcomes.filter((each) => each.group === group),
      ),
    ),
    tally('all', outcomes),
  ];
}
