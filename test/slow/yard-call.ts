/** What the load and crash tests say to the yard's own door. */
import type { Asker, Command, QuestionName, Receipt } from '../../worker/yard/command.ts';

/** Many at once: they reach the yard in this order, none waiting for the answer to another. */
export type YardCall =
  | { readonly call: 'burst'; readonly calls: readonly YardCall[] }
  | {
      readonly call: 'command';
      readonly yardId: string;
      readonly asker: Asker;
      readonly receipt: Receipt;
      readonly command: Command;
      readonly occasion: { readonly atMs: number; readonly today: string };
    }
  | {
      readonly call: 'ask';
      readonly yardId: string;
      readonly asker: Asker;
      readonly name: QuestionName;
      readonly ask: unknown;
    };
