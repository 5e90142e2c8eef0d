import { DRAFT_GROUPS, typedIn, type Draft } from './draft.ts';

/** The ids that the rows of a draft get in the part, made from their names; and back. */
export type DraftIds = {
  readonly part: string;
  readonly of: ReadonlyMap<string, string>;
  readonly row: ReadonlyMap<string, string>;
};

/** A name as an id: `Arm journal, left` is `arm-journal-left`. Letters that no id may hold are left out. */
function idFrom(name: string, otherwise: string): string {
  const plain = name
    .normalize('NFKD')
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^-+|-+$/g, '')
    .slice(0, 40);
  return plain === '' || plain in {} ? otherwise : plain;
}

/** Ids of a whole draft. Two rows of one name are told apart by a number. */
export function idsOf(draft: Draft): DraftIds {
  const of = new Map<string, string>();
  const row = new Map<string, string>();
  for (const group of DRAFT_GROUPS)
    for (const each of draft[group]) {
      const name = idFrom(typedIn(each.values, 'name'), each.kind);
      let id = name;
      for (let count = 2; row.has(id); count += 1) id = `${name}-${count}`;
      of.set(each.id, id);
      row.set(id, each.id);
    }
  return { part: idFrom(typedIn(draft.about, 'name'), 'part'), of, row };
}
