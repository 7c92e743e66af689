/** Notes which process serves a state folder, so that two never write to the same yard files. */
import { existsSync } from 'node:fs';
import { readFile, writeFile } from 'node:fs/promises';
import { join } from 'node:path';

const fileIn = (stateFolder: string) => join(stateFolder, 'running.json');

export async function noteRunning(stateFolder: string, address: string): Promise<void> {
  await writeFile(fileIn(stateFolder), JSON.stringify({ pid: process.pid, address }));
}

/** Where it is served, or null when nobody does (a note left by a killed process counts for nothing). */
export async function runningHere(stateFolder: string): Promise<string | null> {
  if (!existsSync(fileIn(stateFolder))) return null;
  const note: { pid: number; address: string } = JSON.parse(await readFile(fileIn(stateFolder), 'utf8'));
  try {
    process.kill(note.pid, 0);
  } catch {
    return null;
  }
  const answer = await fetch(`${note.address}/v1/health`).catch(() => null);
  return answer?.ok ? note.address : null;
}
