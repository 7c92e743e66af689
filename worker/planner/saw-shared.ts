/** Rip settings that several boards of one phase share: the fence is set once and those boards go past it in turn. */
import type { Layout } from '../contract/plan.ts';
import { cutsInWords, type Shown } from './cut-words.ts';

export interface SharedSetting {
  readonly phase: number;
  /** "fence at 3 5/16\"". */
  readonly setting: string;
  readonly tags: readonly string[];
}

/** In the order of the phases, most boards first; only what more than one board needs. */
export function sharedSettings(layouts: readonly Layout[], shown: Shown): readonly SharedSetting[] {
  const phases = [...new Set(layouts.map(({ phase }) => phase))].sort((a, b) => a - b);
  return phases.flatMap((phase) => {
    const tagsOf = new Map<string, Set<string>>();
    for (const layout of layouts.filter((one) => one.phase === phase))
      for (const { axis, toMark, setting } of cutsInWords(layout, shown))
        if (axis === 'rip' && !toMark) tagsOf.set(setting, (tagsOf.get(setting) ?? new Set()).add(layout.tag));
    return [...tagsOf]
      .filter(([, tags]) => tags.size > 1)
      .map(([setting, tags]) => ({ phase, setting, tags: [...tags] }))
      .sort((a, b) => b.tags.length - a.tags.length);
  });
}
