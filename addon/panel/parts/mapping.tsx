/** How the columns of the sheet were understood, each one changeable: what it is, which column gives it, in which unit. */
import { useId } from 'preact/hooks';
import { columnLetters } from '../../sheet/address.ts';
import {
  boardRoles,
  type Mapping as ColumnMapping,
  type ColumnUnit,
  columnFor,
  mappingWithColumn,
  mappingWithUnit,
  partRoles,
  type Role,
} from '../../sheet/mapping.ts';
import { roleNames } from '../../sheet/role-names.ts';
import { CheckField } from './field.tsx';

const SURE = 0.5;
const sizeRoles: ReadonlySet<Role> = new Set<Role>([
  'length',
  'width',
  'thickness',
  'size',
  'crook',
  'bow',
  'cup',
  'twist',
  'plies',
  'plyWidth',
]);

const units: readonly { readonly value: ColumnUnit; readonly label: string }[] = [
  { value: 'in', label: 'in' },
  { value: 'ft', label: 'ft' },
  { value: 'mm', label: 'mm' },
  { value: 'cm', label: 'cm' },
  { value: 'm', label: 'm' },
];

export function Mapping(props: {
  readonly mapping: ColumnMapping;
  /** Column of the block's left edge on the sheet, for letters. */
  readonly firstColumn: number;
  readonly onChange: (mapping: ColumnMapping) => void;
  /** Dates stand where sizes should, and may be fractions. */
  readonly asksForDates: boolean;
}) {
  const { mapping, onChange } = props;
  const roles: readonly Role[] = mapping.want === 'boards' ? boardRoles : partRoles;
  const shown = roles.filter((role) => columnFor(mapping, role) !== null || mapping.missing.includes(role));
  const others = roles.filter((role) => !shown.includes(role));
  return (
    <div class="mapping">
      {shown.map((role) => (
        <MappingLine key={role} role={role} {...props} />
      ))}
      {mapping.unused.length > 0 && others.length > 0 ? <MoreColumn {...props} others={others} /> : null}
      {columnFor(mapping, 'size') === null ? null : (
        <CheckField
          label="Sizes stand as thickness × width × length"
          on={mapping.sizeOrder === 'thickness-width-length'}
          onChange={(on) =>
            onChange({ ...mapping, sizeOrder: on ? 'thickness-width-length' : 'length-width-thickness' })
          }
        />
      )}
      {props.asksForDates || mapping.datesAreFractions ? (
        <CheckField
          label="Dates among the sizes are fractions"
          hint="The sheet turned 5/4 into a date; read it as 5/4 again."
          on={mapping.datesAreFractions}
          onChange={(datesAreFractions) => onChange({ ...mapping, datesAreFractions })}
        />
      ) : null}
    </div>
  );
}

function MappingLine(props: {
  readonly mapping: ColumnMapping;
  readonly firstColumn: number;
  readonly onChange: (mapping: ColumnMapping) => void;
  readonly role: Role;
}) {
  const { mapping, role, onChange } = props;
  const id = useId();
  const now = columnFor(mapping, role);
  const columns = allColumns(mapping);
  const unsure = now !== null && now.confidence < SURE;
  const missing = now === null && mapping.missing.includes(role);
  return (
    <div class={`mapping-line${missing ? ' at-fault' : ''}`}>
      <label for={id}>{roleNames[role]}</label>
      <span class="mapping-picks">
        <select
          id={id}
          value={now === null ? '' : String(now.column)}
          aria-invalid={missing ? 'true' : undefined}
          aria-describedby={unsure || missing ? `${id}-help` : undefined}
          onChange={(event) => {
            const picked = columns.find((column) => String(column.column) === event.currentTarget.value);
            onChange(
              mappingWithColumn(
                mapping,
                role,
                picked === undefined ? null : { ...picked, unit: now?.unit ?? unitAtFirst(role, mapping) },
              ),
            );
          }}
        >
          <option value="">{missing ? 'which column?' : 'no column'}</option>
          {columns.map((column) => (
            <option key={column.column} value={String(column.column)}>
              {columnName(column, props.firstColumn)}
            </option>
          ))}
        </select>
        {now !== null && now.unit !== null && sizeRoles.has(role) ? (
          <select
            class="unit"
            aria-label={`Unit of ${roleNames[role]} where the cell says none`}
            value={now.unit}
            onChange={(event) => {
              const unit = unitsFor(role).find((one) => one.value === event.currentTarget.value);
              if (unit !== undefined) onChange(mappingWithUnit(mapping, role, unit.value));
            }}
          >
            {unitsFor(role).map((unit) => (
              <option key={unit.value} value={unit.value}>
                {unit.label}
              </option>
            ))}
          </select>
        ) : null}
      </span>
      {unsure || missing ? (
        <p class={missing ? 'fault' : 'hint'} id={`${id}-help`}>
          {missing ? 'No column was found for this.' : 'Not sure. Is it this one?'}
        </p>
      ) : null}
    </div>
  );
}

function MoreColumn(props: {
  readonly mapping: ColumnMapping;
  readonly firstColumn: number;
  readonly others: readonly Role[];
  readonly onChange: (mapping: ColumnMapping) => void;
}) {
  const id = useId();
  const { mapping } = props;
  return (
    <div class="mapping-line">
      <label for={id}>Not read</label>
      <span class="mapping-picks">
        <select
          id={id}
          value=""
          onChange={(event) => {
            const [column, role] = event.currentTarget.value.split(' ');
            const unused = mapping.unused.find((one) => String(one.column) === column);
            const asked = props.others.find((one) => one === role);
            if (unused === undefined || asked === undefined) return;
            props.onChange(mappingWithColumn(mapping, asked, { ...unused, unit: unitAtFirst(asked, mapping) }));
          }}
        >
          <option value="">{mapping.unused.map((one) => one.heading || 'no heading').join(', ')}</option>
          {mapping.unused.map((one) => (
            <optgroup key={one.column} label={columnName(one, props.firstColumn)}>
              {props.others.map((role) => (
                <option key={role} value={`${one.column} ${role}`}>
                  is {roleNames[role].toLowerCase()}
                </option>
              ))}
            </optgroup>
          ))}
        </select>
      </span>
    </div>
  );
}

interface Column {
  readonly column: number;
  readonly heading: string;
}

function allColumns(mapping: ColumnMapping): Column[] {
  return [...mapping.columns, ...mapping.unused]
    .map(({ column, heading }) => ({ column, heading }))
    .sort((a, b) => a.column - b.column);
}

function columnName(column: Column, firstColumn: number): string {
  const letters = columnLetters(firstColumn + column.column);
  return column.heading === '' ? letters : `${column.heading} (${letters})`;
}

function unitAtFirst(role: Role, mapping: ColumnMapping): ColumnUnit | null {
  if (!sizeRoles.has(role)) return null;
  return columnFor(mapping, 'length')?.unit ?? columnFor(mapping, 'width')?.unit ?? 'in';
}

function unitsFor(role: Role): readonly { readonly value: ColumnUnit; readonly label: string }[] {
  return role === 'thickness' ? [...units, { value: 'quarters', label: 'quarters' }] : units;
}
