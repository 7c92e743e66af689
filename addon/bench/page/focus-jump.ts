/** F6 (or Ctrl+F6) jumps between sheet and sidebar: inside the grid Tab moves between cells and never leaves it. */
export function openFocusJump(side: HTMLElement, focusSheet: () => void): void {
  let lastInSide: HTMLElement | null = null;
  side.addEventListener('focusin', (event) => {
    if (event.target instanceof HTMLElement && event.target !== side) lastInSide = event.target;
  });
  document.addEventListener(
    'keydown',
    (event) => {
      if (event.key !== 'F6' || event.altKey || event.metaKey) return;
      event.preventDefault();
      event.stopImmediatePropagation();
      if (side.contains(document.activeElement)) focusSheet();
      else focusSide(side, lastInSide);
    },
    { capture: true },
  );
}

function focusSide(side: HTMLElement, last: HTMLElement | null): void {
  const first = side.querySelector<HTMLElement>(
    'button:not([disabled]), [href], input:not([disabled]), select:not([disabled]), textarea:not([disabled]), [tabindex="0"]',
  );
  const target = last?.isConnected && last.getClientRects().length > 0 ? last : first;
  (target ?? side).focus();
}
