import { ABOUT_FIELDS, type Draft, type DraftEdit } from '../../part/index.ts';
import { Field } from './Field.tsx';
import { fieldId, fieldName } from './names.ts';
import { layoutWords as w } from './layoutWords.ts';
import { saysOf, type Said } from './said.ts';

/** The fields that stand once: the name of the part, its stock, and what its sizes are in. */
export function AboutSheet({
  draft,
  said,
  edit,
}: {
  readonly draft: Draft;
  readonly said: Said;
  readonly edit: (edit: DraftEdit) => void;
}) {
  return (
    <section className="rows" aria-label={w.about}>
      <h2>{w.about}</h2>
      <div className="row">
        <div className="row-fields">
          {ABOUT_FIELDS.map((field) => (
            <Field
              key={field.name}
              field={field}
              label={fieldName(field.name, '')}
              id={fieldId('about', field.name)}
              text={draft.about[field.name] ?? ''}
              unit={draft.unit}
              choices={field.choices?.map((value) => ({ value, label: w.choices[value] ?? value })) ?? null}
              reading={null}
              says={saysOf(said, 'about', null, field.name)}
              onType={(text) => edit({ edit: 'type-about', field: field.name, text })}
            />
          ))}
          <div className="cell">
            <label htmlFor="field-unit">{w.unit.label}</label>
            <select
              id="field-unit"
              value={draft.unit}
              onChange={(event) => edit({ edit: 'unit', unit: event.target.value === 'inch' ? 'inch' : 'millimetre' })}
            >
              <option value="inch">{w.unit.inch}</option>
              <option value="millimetre">{w.unit.millimetre}</option>
            </select>
          </div>
        </div>
        {saysOf(said, 'about', null, null) !== null && <p className="cell-says">{saysOf(said, 'about', null, null)}</p>}
      </div>
    </section>
  );
}
