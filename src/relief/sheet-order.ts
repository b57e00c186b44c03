import type { Joint, RefusedSheet, SheetRequest } from './relief.js';
import type { Sheet, Stack } from './stack.js';

/** The sheets of one piece or add-on, and what could not be given. */
export interface SheetOrder {
  /** Ids from the face. */
  readonly order: readonly string[];
  /** Those of them that are spare parts out of offcuts. */
  readonly spares: readonly string[];
  readonly refused: readonly RefusedSheet[];
}

/**
 * The sheets of a piece of `count` sheets, from the face. As pieces these are the front ones of the stack, as
 * continuous sheets the back ones (where nothing can be swapped). A request is granted in this order:
 * substitutes and extra sheets (spare parts at the piece's own place, so only from sheets further back than
 * it reaches, each once for every board), then the face or the whole order.
 */
export function orderPiece(
  stack: Stack,
  count: number,
  joint: Joint,
  request: SheetRequest | null,
): SheetOrder {
  const ids = stack.sheets.map((sheet) => sheet.id);
  if (joint === 'continuous') {
    const refused = request === null ? [] : asked(request).map((sheet) => refuse(sheet, 'continuous'));
    return { order: ids.slice(ids.length - count), spares: [], refused };
  }
  const own = ids.slice(0, count);
  if (request === null) return { order: own, spares: [], refused: [] };
  const refused: RefusedSheet[] = [];
  const spares: string[] = [];
  const takeSpare = (id: string): boolean => {
    const place = ids.indexOf(id);
    const boards = stack.sheets[place]?.count ?? 1;
    const used = spares.filter((spare) => spare === id).length + (place < count ? 1 : 0);
    if (place < 0 || used >= boards) {
      refused.push(refuse(id, 'no-spare'));
      return false;
    }
    spares.push(id);
    return true;
  };
  for (const [from, to] of Object.entries(request.substitute)) {
    const place = own.indexOf(from);
    if (place < 0) refused.push(refuse(from, 'not-own'));
    else if (takeSpare(to)) own[place] = to;
  }
  for (const id of request.extra) if (takeSpare(id)) own.push(id);
  return { order: turn(own, request.face, stack, refused), spares, refused };
}

/**
 * The sheets of an add-on: as many from the front of the stack, or the ones asked for (a sheet that is asked
 * to show comes first, the others follow from the front). An add-on is cut by itself, from any sheet.
 */
export function orderAddOn(stack: Stack, count: number, request: SheetRequest | null): SheetOrder {
  const ids = stack.sheets.map((sheet) => sheet.id);
  const front = ids.slice(0, count);
  const face = request?.face ?? null;
  if (face === null) return { order: front, spares: [], refused: [] };
  if (typeof face !== 'string') {
    const unknown = face.filter((id) => !ids.includes(id)).map((id) => refuse(id, 'not-own'));
    if (unknown.length > 0) return { order: front, spares: [], refused: unknown };
    if (face.length === count) return { order: face, spares: [], refused: [] };
    return { order: front, spares: [], refused: [refuse(face.join(', '), 'not-whole')] };
  }
  const shown = findFace(ids, face, stack);
  if (shown === null) return { order: front, spares: [], refused: [refuse(face, 'not-own')] };
  const others = ids.filter((id) => id !== shown);
  return { order: [shown, ...others].slice(0, count), spares: [], refused: [] };
}

/** The own sheets with the asked face in front, or in the asked order. */
function turn(
  own: readonly string[],
  face: SheetRequest['face'],
  stack: Stack,
  refused: RefusedSheet[],
): readonly string[] {
  if (face === null) return own;
  if (typeof face === 'string') {
    const shown = findFace(own, face, stack);
    if (shown === null) {
      refused.push(refuse(face, 'not-own'));
      return own;
    }
    const place = own.indexOf(shown);
    return [shown, ...own.slice(0, place), ...own.slice(place + 1)];
  }
  const left = [...own];
  for (const id of face) {
    const place = left.indexOf(id);
    if (place < 0) refused.push(refuse(id, 'not-own'));
    else left.splice(place, 1);
  }
  if (refused.length === 0 && left.length > 0) refused.push(refuse(face.join(', '), 'not-whole'));
  return refused.length === 0 ? face : own;
}

/** The first of the sheets with this id, else with this face, else of this material; letter case apart. */
function findFace(ids: readonly string[], face: string, stack: Stack): string | null {
  const wanted = face.trim().toLowerCase();
  const sheets = ids.map((id) => stack.sheets.find((sheet) => sheet.id === id)!);
  const by = (read: (sheet: Sheet) => string | undefined): Sheet | undefined =>
    sheets.find((sheet) => read(sheet)?.toLowerCase() === wanted);
  return (by((s) => s.id) ?? by((s) => s.face) ?? by((s) => s.material))?.id ?? null;
}

function asked(request: SheetRequest): string[] {
  const face = request.face === null ? [] : [request.face].flat();
  return [...face, ...Object.values(request.substitute), ...request.extra];
}

function refuse(sheet: string, reason: RefusedSheet['reason']): RefusedSheet {
  return { sheet, reason };
}
