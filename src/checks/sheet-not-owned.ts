import type { RefusedSheet, Relief } from '../relief/relief.js';
import { defineRule, type NoOptions, type RuleFinding } from './rule.js';
import { nameOf, placeOf } from './words.js';

/** A sheet asked for that the piece can't have. Page: docs/checks/sheet-not-owned.md. */
export const sheetNotOwned = defineRule<'sheet-not-owned', NoOptions>({
  id: 'sheet-not-owned',
  group: 'build',
  level: 'error',
  summary: 'a piece is asked to show or take a sheet that it does not own',
  model: null,
  defaults: {},
  find: ({ relief }) => [...refusals(relief), ...requestsWithoutSheets(relief)],
});

function refusals(relief: Relief): RuleFinding[] {
  return [...relief.bodies, ...relief.addOns].flatMap(({ region, order, refused }) =>
    refused.map(({ sheet, reason }) => ({
      message: `${nameOf(relief, region)} ${WHY[reason](sheet)}; it keeps ${order.join(', ')}.`,
      at: placeOf(relief, region),
      regions: [region],
      fix: FIX[reason],
    })),
  );
}

/** Requests for regions that are no body: a cutout has no sheets to swap. */
function requestsWithoutSheets(relief: Relief): RuleFinding[] {
  const found: RuleFinding[] = [];
  relief.regions.forEach(({ request, role }, region) => {
    if (request === null || role === 'piece' || role === 'add-on') return;
    found.push({
      message: `Sheets are asked for ${nameOf(relief, region)}, and it is ${role === null ? 'not numbered' : `no piece (${role})`}.`,
      at: placeOf(relief, region),
      regions: [region],
      fix: 'Ask for them on the piece around it, or take the request away.',
    });
  });
  return found;
}

const WHY: Readonly<Record<RefusedSheet['reason'], (sheet: string) => string>> = {
  'not-own': (sheet) => `does not own a sheet "${sheet}"`,
  'no-spare': (sheet) => `finds no spare part of the sheet "${sheet}" at its place`,
  'not-whole': (sheet) => `is given the order ${sheet}, which leaves out some of its sheets`,
  continuous: (sheet) => `can't turn to "${sheet}": as continuous sheets a level is one sheet for all`,
};

const FIX: Readonly<Record<RefusedSheet['reason'], string>> = {
  'not-own': 'Ask for one of its own sheets by id, face or material, or take the other one as a substitute.',
  'no-spare':
    'Take a sheet further back than the piece reaches, each once, or put more boards of it in the stack.',
  'not-whole': 'List every sheet of the piece once, or name only the one that shows.',
  continuous: 'Build the relief as pieces, or change the order of the stack.',
};
