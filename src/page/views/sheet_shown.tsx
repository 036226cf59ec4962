import { useEffect, useMemo, useRef } from 'preact/hooks';
import { jobText } from '../job/job_desk';
import { useBlobAddress } from '../parts/blob_address';
import { rowsOfCommas } from '../parts/comma_table';
import { EnginePage } from '../parts/engine_page';
import { Icon } from '../parts/icon';
import { saveFile } from '../parts/save_file';
import { fileNameOf, kindOf, make, making, type Sheet, shownSheet } from './sheets';

const text = (bytes: Uint8Array): string => new TextDecoder().decode(bytes);

function Picture({ sheet, label }: { sheet: Sheet; label: string }) {
  const { type } = kindOf(sheet.name);
  const blob = useMemo(() => new Blob([sheet.bytes as BlobPart], { type }), [sheet, type]);
  const address = useBlobAddress(blob);
  return <img class="sheet-picture" src={address} alt={label} />;
}

/** What to buy; its first column, the job, is the same all over. */
function List({ sheet, label }: { sheet: Sheet; label: string }) {
  const [head = [], ...rows] = rowsOfCommas(text(sheet.bytes)).map(([, ...cells]) => cells);
  const isNumber = (column: number): boolean => head[column] !== 'item' && head[column] !== 'unit';
  return (
    <div class="wide" role="region" aria-label={label} tabIndex={0}>
      <table>
        <caption>{label}</caption>
        <thead>
          <tr>
            {head.map((name, column) => (
              <th key={name} scope="col" class={isNumber(column) ? 'number' : undefined}>
                {name}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {rows.map((cells, row) => (
            <tr key={row}>
              {cells.map((cell, column) =>
                column === 0 ? (
                  <th key={column} scope="row">
                    {cell}
                  </th>
                ) : (
                  <td key={column} class={isNumber(column) ? 'number' : undefined}>
                    {cell}
                  </td>
                ),
              )}
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}

function Content({ sheet }: { sheet: Sheet }) {
  const { type, label } = kindOf(sheet.name);
  if (type === 'text/html') return <EnginePage html={text(sheet.bytes)} label={label} />;
  if (type === 'text/csv') return <List sheet={sheet} label={label} />;
  return <Picture sheet={sheet} label={label} />;
}

/** A sheet, to read, to print, to save; printing the page prints it alone. */
export function SheetShown({ sheet }: { sheet: Sheet }) {
  const { label, type, caution } = kindOf(sheet.name);
  const isOld = sheet.text !== jobText.value;
  const back = useRef<HTMLButtonElement>(null);
  useEffect(() => back.current?.focus(), []);
  return (
    <div class="sheet-shown">
      <div class="sheet-bar not-printed">
        <button type="button" ref={back} onClick={() => (shownSheet.value = null)}>
          <Icon name="left" /> All sheets
        </button>
        <button type="button" class="main" onClick={() => print()}>
          Print
        </button>
        <button type="button" onClick={() => saveFile(fileNameOf(sheet.name), sheet.bytes, type)}>
          Save
        </button>
      </div>
      {isOld && (
        <p class="lacks not-printed">
          The job has changed since this was made.{' '}
          <button type="button" disabled={making.value !== null} onClick={() => void make(sheet.name)}>
            Make it again: {label}
          </button>
        </p>
      )}
      <Content sheet={sheet} />
      {caution && <p class="caution">{caution}</p>}
    </div>
  );
}
