/**
 * Shows a self-contained page over the bench, ready for the printer. The page sits in a frame without scripts of its
 * own; only the frame's content is printed, never the sheet behind it.
 */
export function showPrintPage(title: string, html: string): void {
  const dialog = document.createElement('dialog');
  dialog.className = 'bench-page';
  const heading = document.createElement('h2');
  heading.textContent = title;
  heading.id = 'bench-page-title';
  dialog.setAttribute('aria-labelledby', heading.id);

  const frame = document.createElement('iframe');
  frame.title = title;
  // Same origin lets the bar below print the frame; without allow-scripts nothing in it runs.
  frame.setAttribute('sandbox', 'allow-same-origin allow-modals');
  frame.srcdoc = html;

  const print = button('Print', () => frame.contentWindow?.print());
  print.className = 'first';
  const close = button('Close', () => dialog.close());
  const bar = document.createElement('div');
  bar.className = 'bench-page-bar';
  bar.append(heading, print, close);

  const cameFrom = document.activeElement;
  dialog.addEventListener('close', () => {
    dialog.remove();
    if (cameFrom instanceof HTMLElement) cameFrom.focus();
  });
  dialog.append(bar, frame);
  document.body.append(dialog);
  dialog.showModal();
  print.focus();
}

function button(text: string, act: () => void): HTMLButtonElement {
  const element = document.createElement('button');
  element.type = 'button';
  element.textContent = text;
  element.addEventListener('click', act);
  return element;
}
