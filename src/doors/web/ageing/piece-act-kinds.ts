/** What can be done on a page of its own at one cheese, and the kind of event that comes of it. */
export const KIND_OF_ACT = {
  weigh: 'pieceWeighed',
  taste: 'pieceTasted',
  grow: 'pieceLooked',
  move: 'pieceMoved',
  wax: 'pieceWaxed',
  pack: 'piecePacked',
  split: 'pieceSplit',
  end: 'pieceEnded',
} as const;
export type PieceAct = keyof typeof KIND_OF_ACT;
export const isPieceAct = (name: string): name is PieceAct => Object.hasOwn(KIND_OF_ACT, name);
