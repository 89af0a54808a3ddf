// @ts-check
// Reading values off a chart, by slider or pointer, and saving its table. All numbers come from the
// table behind the chart.

/** @param {Element} figure */
const rowsOf = figure => /** @type {HTMLTableRowElement[]} */ (
  [...figure.querySelectorAll('tbody tr')]);

/** @param {string} head  "Power, W" is a label and a unit */
function labelAndUnit(head) {
  const at = head.lastIndexOf(', ');
  return at < 0 ? [head, ''] : [head.slice(0, at), head.slice(at + 2)];
}

/** @param {string} number @param {string} unit */
const joined = (number, unit) => unit ? `${number}\u202f${unit}` : number;

/**
 * Draw the cursor of a chart and say the values under it.
 * @param {HTMLInputElement} slider
 */
export function readChart(slider) {
  const figure = slider.closest('[data-chart]'), output = figure?.querySelector('output');
  if (!figure || !output) return;
  const rows = rowsOf(figure), row = rows[Math.min(slider.valueAsNumber, rows.length - 1)];
  if (!row) return;
  const heads = [...figure.querySelectorAll('thead th')].map(th => th.textContent ?? '');
  const cells = [...row.cells].map(cell => cell.textContent ?? '');
  const said = heads.flatMap((head, i) => {
    if (i === 0 || /^(Low|High) end of /.test(head)) return [];
    const [label, unit] = labelAndUnit(head);
    return [`${inSentence(label)} ${cells[i] ? joined(cells[i], unit) : 'no value'}`];
  });
  const text = `At ${joined(cells[0], labelAndUnit(heads[0])[1])}: ${said.join(', ')}.`;
  if (output.textContent !== text) output.textContent = text;
  slider.setAttribute('aria-valuetext', text);
  const at = Number(row.getAttribute('data-at'));
  for (const svg of figure.querySelectorAll('svg[data-left]')) {
    const left = Number(svg.getAttribute('data-left')), right = Number(svg.getAttribute('data-right'));
    const cursor = svg.querySelector('.sf-cursor');
    cursor?.setAttribute('transform', `translate(${(left + at * (right - left)).toFixed(1)} 0)`);
    cursor?.setAttribute('visibility', 'visible');
  }
}

/** Set every cursor, at first or again after new content. */
export function readCharts() {
  for (const slider of document.querySelectorAll('[data-cursor]')) {
    if (slider instanceof HTMLInputElement) readChart(slider);
  }
}

/**
 * The pointer moves the cursor as the slider does.
 * @param {Element} svg
 * @param {number} clientX
 */
export function readChartAt(svg, clientX) {
  const figure = svg.closest('[data-chart]'), slider = figure?.querySelector('[data-cursor]');
  if (!figure || !(slider instanceof HTMLInputElement)) return;
  const box = svg.getBoundingClientRect(), width = Number(svg.getAttribute('viewBox')?.split(' ')[2]);
  const left = Number(svg.getAttribute('data-left')), right = Number(svg.getAttribute('data-right'));
  const share = ((clientX - box.left) / box.width * width - left) / (right - left);
  let nearest = 0, least = Infinity;
  rowsOf(figure).forEach((row, i) => {
    const distance = Math.abs(Number(row.getAttribute('data-at')) - share);
    if (distance < least) [nearest, least] = [i, distance];
  });
  slider.value = String(nearest);
  readChart(slider);
}

/**
 * Save the table behind a chart.
 * @param {Element} button
 */
export function saveCsv(button) {
  const table = button.closest('[data-chart], [data-table]')?.querySelector('table');
  if (!table) return;
  const lines = [...table.rows].map(row => [...row.cells].map(cell => csvCell(cell)).join(','));
  const address = URL.createObjectURL(new Blob([lines.join('\r\n') + '\r\n'], {type: 'text/csv'}));
  const anchor = document.createElement('a');
  anchor.href = address;
  anchor.download = `${button.getAttribute('data-csv')}.csv`;
  anchor.click();
  setTimeout(() => URL.revokeObjectURL(address), 1000);
}

/** @param {HTMLTableCellElement} cell  numbers without thin spaces and with a plain minus */
function csvCell(cell) {
  const text = cell.querySelector('input')?.value.trim()
    ?? [...cell.childNodes].map(node => node.textContent?.trim()).filter(Boolean).join('; ');
  const plain = text.replace(/\u202f/g, '').replace(/−/g, '-');
  const written = /^-?\d+(\.\d+)?$/.test(plain) ? plain : text;
  return /[",\n]/.test(written) ? `"${written.replace(/"/g, '""')}"` : written;
}

/** A label inside a sentence: its first letter small, unless it is an abbreviation such as ESC.
 * @param {string} label */
function inSentence(label) {
  return /^[A-Z][A-Z]/.test(label) ? label : label.charAt(0).toLowerCase() + label.slice(1);
}
