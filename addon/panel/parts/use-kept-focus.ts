/**
 * A pressed button may be gone when its work is done. Then the focus would fall to the page's top, and a keyboard user
 * out of the panel; it goes to the heading of the screen instead, but only if it was in the panel before.
 */
import type { RefObject } from 'preact';
import { useEffect } from 'preact/hooks';

export function useKeptFocus(root: RefObject<HTMLElement | null>): void {
  useEffect(() => {
    const element = root.current;
    if (element === null) return;
    let inside = false;
    const note = (event: Event) => {
      inside = event.target instanceof Node && element.contains(event.target);
    };
    const watcher = new MutationObserver(() => {
      if (!inside || document.activeElement !== document.body) return;
      const heading = element.querySelector<HTMLElement>('.screen h2');
      if (heading === null) return;
      heading.tabIndex = -1;
      heading.focus({ preventScroll: true });
    });
    document.addEventListener('focusin', note);
    document.addEventListener('pointerdown', note);
    watcher.observe(element, { childList: true, subtree: true });
    return () => {
      document.removeEventListener('focusin', note);
      document.removeEventListener('pointerdown', note);
      watcher.disconnect();
    };
  }, [root]);
}
