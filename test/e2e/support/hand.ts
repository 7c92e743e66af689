/** A person at the bench: opens the sidebar's screens and presses what they say, by the names that a screen reader hears. */
import type { Locator, Page } from 'playwright-core';
import { select } from './sheet.ts';

export type Tab = 'Stock' | 'Job' | 'Cuts' | 'Held' | 'Offcuts' | 'Drying' | 'Journal' | 'Shop' | 'Help';

export class Hand {
  readonly page: Page;
  readonly panel: Locator;

  constructor(page: Page) {
    this.page = page;
    this.panel = page.locator('#panel');
  }

  async open(tab: Tab): Promise<void> {
    await this.panel.getByRole('tab', { name: tab, exact: true }).click();
    await this.panel.getByRole('tabpanel', { name: tab, exact: true }).waitFor();
  }

  async selectCell(address: string): Promise<void> {
    await select(this.page, address);
  }

  button(name: string | RegExp): Locator {
    return this.panel.getByRole('button', typeof name === 'string' ? { name, exact: true } : { name });
  }

  /** Presses the button, and the one that it asks back with. */
  async press(name: string | RegExp, yes?: string): Promise<void> {
    await this.button(name).first().click();
    if (yes !== undefined) await this.button(yes).click();
  }

  /** Waits until the sidebar shows this. */
  async sees(words: string | RegExp, withinMs = 20_000): Promise<void> {
    await this.panel.getByText(words).first().waitFor({ timeout: withinMs });
  }

  async words(): Promise<string> {
    return (await this.panel.allInnerTexts()).join('\n');
  }

  /** What was read of a live region or a row may be split over lines; numbers are easier found so. */
  async wordsInLine(): Promise<string> {
    return (await this.words()).replaceAll(/\s+/g, ' ');
  }
}
