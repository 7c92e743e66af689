/** The window that prints: shows the page it is sent in a frame where nothing runs, with a button to print it. */
Office.onReady(() => {
  Office.context.ui.addHandlerAsync(Office.EventType.DialogParentMessageReceived, show, () => {
    Office.context.ui.messageParent('ready');
  });
});

function show(received: { readonly message?: string }): void {
  const sent: { readonly title: string; readonly html: string } = JSON.parse(received.message ?? '{}');
  const frame = document.querySelector('iframe');
  const print = document.querySelector('button');
  if (!frame || !print) return;
  document.title = sent.title;
  frame.title = sent.title;
  frame.srcdoc = sent.html;
  print.hidden = false;
  print.addEventListener('click', () => frame.contentWindow?.print());
}
