/** A screen that needs more than the panel opens with waits here until that is fetched. */
import type { ComponentChildren } from 'preact';
import { PanelContext, useCore } from '../panel.ts';
import { WhenFetched } from '../parts/later.tsx';

export function WithWhole(props: { readonly children: ComponentChildren }) {
  return (
    <WhenFetched of={useCore().whole}>
      {(panel) => <PanelContext.Provider value={panel}>{props.children}</PanelContext.Provider>}
    </WhenFetched>
  );
}
