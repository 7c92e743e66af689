/**
 * A copy of a far yard, kept by following its journal: each new movement is folded into a yard of our own, and what must
 * hold is checked around what it touched. The copy also says what could be done next, for a history at random.
 */
import { expect } from 'vitest';
import type { Movement } from '../../worker/contract/movement.ts';
import { apply } from '../../worker/yard/apply.ts';
import { brokenRules } from '../../worker/yard/decide/rules.ts';
import { Shop } from '../yard/shop.ts';
import type { FarYard } from './far-yard.ts';

export class Twin {
  readonly shop: Shop;
  readonly #far: FarYard;

  private constructor(shop: Shop, far: FarYard) {
    this.shop = shop;
    this.#far = far;
  }

  static async of(far: FarYard): Promise<Twin> {
    const shop = await Shop.empty();
    const twin = new Twin(shop, far);
    await twin.follow();
    return twin;
  }

  /** Folds what is new, with every check; gives it. */
  async follow(): Promise<readonly Movement[]> {
    const fresh = await this.#far.journal(this.shop.seq());
    for (const movement of fresh) this.#take(movement);
    return fresh;
  }

  #take(movement: Movement): void {
    const state = this.shop.state();
    // Throws where a number is missing, or where a movement says of a thing what it was not.
    this.shop.yard.sql.once(() => {
      apply(state, movement);
      return null;
    });
    expect(brokenRules(state, movement.changes), `movement ${movement.seq}`).toEqual([]);
    for (const balance of movement.balances) {
      const { inNm3, partsNm3, failedNm3, offcutsNm3, kerfNm3, scrapNm3, writeOffNm3 } = balance;
      const out = [partsNm3, failedNm3, offcutsNm3, kerfNm3, scrapNm3, writeOffNm3].map(BigInt);
      expect(out.every((nm3) => nm3 >= 0n)).toBe(true);
      expect(out.reduce((sum, nm3) => sum + nm3, 0n)).toBe(BigInt(inNm3));
    }
    const boards = new Set(
      movement.changes.flatMap((change) =>
        change.entity === 'reservation' ? (state.get('reservation', change.id)?.boardId ?? []) : [],
      ),
    );
    for (const boardId of boards) {
      let freeFromNm = 0;
      for (const held of state.reservationsOnBoard(boardId)) {
        expect(held.fromNm, `${boardId} is held twice`).toBeGreaterThanOrEqual(freeFromNm);
        freeFromNm = held.toNm;
      }
    }
  }
}
