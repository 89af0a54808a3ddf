// @ts-check
// A drawing with a handle: turns what turns in it, and says what is to be said of that stage. All
// angles and words come from the list behind the drawing.

/** @param {HTMLInputElement} handle */
export function showStage(handle) {
  const figure = handle.closest('[data-drawing]');
  const stages = figure?.querySelectorAll('.sf-stages li');
  if (!figure || !stages?.length) return;
  const stage = stages[Math.min(handle.valueAsNumber, stages.length - 1)];
  const words = stage.textContent ?? '', output = figure.querySelector('.sf-stage-words');
  if (output && output.textContent !== words) output.textContent = words;
  handle.setAttribute('aria-valuetext', words);
  for (const piece of figure.querySelectorAll('[data-turns]')) {
    const about = piece.getAttribute('data-turns');
    piece.setAttribute('transform', `rotate(${stage.getAttribute('data-turn')} ${about})`);
  }
}

/** Set every handle again after new content; one that nobody has moved goes where the build wants. */
export function showStages() {
  for (const handle of document.querySelectorAll('[data-stage]')) {
    if (!(handle instanceof HTMLInputElement)) continue;
    if (!moved.has(handle)) handle.value = handle.getAttribute('value') ?? '0';
    showStage(handle);
  }
}

/** @type {WeakSet<HTMLInputElement>} */
const moved = new WeakSet();

/** @param {HTMLInputElement} handle */
export function moveStage(handle) {
  moved.add(handle);
  showStage(handle);
}
