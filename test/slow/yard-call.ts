/** What the load and crash tests say to the yard over HTTP. */
import type { Asker, Command, QuestionName, Receipt, YardDoor } from '../../worker/yard/command.ts';

export type YardCall =
  | { readonly call: 'found'; readonly input: Parameters<YardDoor['found']>[0] }
  | {
      readonly call: 'command';
      readonly asker: Asker;
      readonly receipt: Receipt;
      readonly command: Command;
      readonly occasion: { readonly atMs: number; readonly today: string };
    }
  | { readonly call: 'ask'; readonly asker: Asker; readonly name: QuestionName; readonly ask: unknown };
