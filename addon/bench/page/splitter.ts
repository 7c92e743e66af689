/** The bar between sheet and sidebar: dragged, or moved by the arrow keys, Home and End; the width is kept. */
const KEY = 'heartside.side-width';
const WIDTH_MIN_PX = 300;
const WIDTH_MAX_PX = 480;
const WIDTH_USUAL_PX = 320;
const STEP_PX = 20;

export function openSplitter(splitter: HTMLElement, work: HTMLElement): void {
  let widthPx = Number(localStorage.getItem(KEY)) || WIDTH_USUAL_PX;

  function setWidth(wantedPx: number) {
    widthPx = Math.round(Math.min(WIDTH_MAX_PX, Math.max(WIDTH_MIN_PX, wantedPx)));
    work.style.setProperty('--side-width', `${widthPx}px`);
    splitter.setAttribute('aria-valuenow', String(widthPx));
    splitter.setAttribute('aria-valuetext', `${widthPx} pixels`);
    localStorage.setItem(KEY, String(widthPx));
  }

  splitter.addEventListener('keydown', (event) => {
    const wantedPx = widthAfterKey(event.key, widthPx);
    if (wantedPx === null) return;
    event.preventDefault();
    setWidth(wantedPx);
  });
  splitter.addEventListener('pointerdown', (event) => {
    splitter.setPointerCapture(event.pointerId);
    event.preventDefault();
    splitter.focus();
  });
  splitter.addEventListener('pointermove', (event) => {
    if (splitter.hasPointerCapture(event.pointerId)) setWidth(work.getBoundingClientRect().right - event.clientX - 3);
  });
  splitter.addEventListener('dblclick', () => setWidth(WIDTH_USUAL_PX));
  splitter.tabIndex = 0;
  setWidth(widthPx);
}

function widthAfterKey(key: string, widthPx: number): number | null {
  if (key === 'ArrowLeft') return widthPx + STEP_PX;
  if (key === 'ArrowRight') return widthPx - STEP_PX;
  if (key === 'Home') return WIDTH_MIN_PX;
  if (key === 'End') return WIDTH_MAX_PX;
  return null;
}
