/** The shop's way of showing sizes, from the figures of the yard; inches and sixteenths until they are read. */
import { useMemo } from 'preact/hooks';
import { useCore } from '../panel.ts';
import { type Measure, makeMeasure, shownInAtFirst } from '../words/measure.ts';

export function useMeasure(): Measure {
  const settings = useCore().yard.facts.value?.settings;
  return useMemo(
    () =>
      makeMeasure(
        settings === undefined
          ? shownInAtFirst
          : { shown: settings.shown, denominator: settings.denominator, currency: settings.currency },
      ),
    [settings],
  );
}
