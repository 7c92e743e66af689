/** What the load and crash tests say to the yard's own door. */
import type { Asker, Command, QuestionName, Receipt } from '../../worker/yard/command.ts';

export type YardCall =
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
