/** Every limit of the wire in one place. A limit is tested at n and at n + 1. */
export const limits = {
  bodyBytes: 2_000_000,
  /** Lists and objects within each other in a body. */
  jsonDepth: 32,
  textChars: 500,
  tagChars: 40,
  boardsPerIntake: 2_000,
  partsPerJob: 2_000,
  piecesPerPart: 500,
  piecesPerJob: 5_000,
  defectsPerBoard: 100,
  readingsPerBoard: 200,
  boardsPerReservation: 200,
  boardsPerPlan: 2_000,
  /** A page of a yard's file on its way between the yard and the service; one line may be longer. */
  archivePageChars: 1_000_000,
  archivePageLines: 2_000,
  archiveLineChars: 12_000_000,
  /** Answers of writes remembered by one yard; the oldest go first, none before its week in any shop's pace. */
  receiptsKept: 100_000,
  /** Boards in stock as one plan, takeoff or offcut question looks at them: the platform carries 32 MB between two parts of it. */
  snapshotChars: 24_000_000,
  statusTags: 5_000,
  pageMax: 200,
  pageDefault: 100,
  /** 30 m: longer than any sawn board; a longer number is a unit mistake. */
  lengthNmMax: 30_000_000_000,
  widthNmMax: 3_000_000_000,
  thicknessNmMax: 600_000_000,
  pliesPerPart: 12,
  stavesPerPart: 60,
  /** Keys and links that work at the same time. */
  keysPerYard: 100,
  keyDaysMax: 3_650,
  /** Calls under way for one yard, and requests that work on a whole stock, in one instance of the service. */
  callsPerYardAtOnce: 256,
  plansAtOnce: 8,
} as const;
