/** What the office library sends in one batch, and the fault that a workbook answers with. */
export interface OfficeBatch {
  readonly Actions: readonly OfficeAction[];
  readonly ObjectPaths: Readonly<Record<string, OfficePath>>;
}
export interface OfficeArguments {
  readonly Arguments?: readonly unknown[];
  /** Beside each argument the path of the thing it stands for, or 0. */
  readonly ReferencedObjectPathIds?: readonly number[] | null;
}
export interface OfficeAction {
  readonly Id: number;
  readonly ActionType: number;
  readonly Name: string;
  readonly ObjectPathId: number;
  readonly ArgumentInfo?: OfficeArguments;
  readonly QueryInfo?: { readonly Select?: readonly string[] };
}
export interface OfficePath {
  readonly Id: number;
  readonly ObjectPathType: number;
  readonly Name: string;
  readonly ParentObjectPathId?: number;
  readonly ArgumentInfo?: OfficeArguments;
}

export const INSTANTIATE = 1;
export const QUERY = 2;
export const METHOD = 3;
export const SET_PROPERTY = 4;
export const TRACE = 5;
export const PATH_GLOBAL = 1;
export const PATH_METHOD = 3;
export const PATH_PROPERTY = 4;
export const PATH_INDEXER = 5;
export const PATH_REFERENCE = 6;
export const PATH_NULL = 7;

export class ExcelFault extends Error {
  readonly code: string;
  constructor(code: string) {
    super(code);
    this.code = code;
  }
}
