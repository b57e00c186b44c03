import { RULES } from '../../src/checks/rules.js';
import { STAGE_RULES } from '../../src/checks/stage-rules.js';

const LEVELS = ['off', 'note', 'warning', 'error'];

const GROUPS = [
  ['numbers', 'Numbers: is every region numbered, and meant so?'],
  ['build', 'Build: can it be built, and does it hold?'],
  ['lines', 'Lines: does every line do what it was drawn for?'],
  ['strength', 'Strength: does it live through the saw?'],
] as const;

/** The index of the rules, docs/checks.md. */
export function checksIndex(): string {
  const tables = GROUPS.map(([group, title]) => {
    const rows = RULES.filter((rule) => rule.group === group).map(
      ({ id, level, summary }) => `| [${id}](checks/${id}.md) | ${level} | ${summary} |`,
    );
    return `## ${title}\n\n| rule | level | reports that |\n|---|---|---|\n${rows.join('\n')}\n`;
  });
  const stages = STAGE_RULES.map(({ id, stage, summary }) => `| ${id} | ${stage} | ${summary} |`);
  return `${INTRODUCTION}\n${tables.join('\n')}\n${STAGES}${stages.join('\n')}\n\n${SETTINGS}`;
}

const INTRODUCTION = `# Checks

\`plystep check\` and \`checkRelief(relief, plan, options)\` say what would go wrong at the saw or at the glue-up:
where, why, by how much, and what to do. Errors stop the job, warnings want a look, notes are for the record. The
findings of reading, mapping and planning stand in the same list, and say all they know in their message. Each page shows a drawing that is reported and one that passes; both are run by a test.
`;

const STAGES = `## Findings of the steps before

| rule | step | reports that |
|---|---|---|
`;

const SETTINGS = `## Settings

Any rule can be switched off, raised or lowered, and given other numbers: for many drawings in the settings file under
\`checks\`, for one drawing in its sidecar under the same name, which counts more, or as the third argument of
\`checkRelief\`. A reason stays in the report with what it changed. A mistyped name is an
error that says which rule was probably meant. The JSON Schema is \`shared/schema/checks.json\`.

\`\`\`json
{
  "rules": {
    "small-piece": "off",
    "flush-step": { "level": "error", "smallest": 1 },
    "falls-out": { "backing": true, "reason": "glued to a board behind" }
  },
  "stages": { "unused-sheet": "off" },
  "exceptions": [
    { "rule": "thin-bridge", "at": [31, 20], "level": "note", "reason": "cut from plywood, tried out" }
  ]
}
\`\`\`

An exception holds for one region, by its id or by a point in it. With the level \`off\` its finding becomes a note
that carries the reason; nothing disappears in silence.
`;

/** The JSON Schema of \`CheckOptions\`, shared/schema/checks.json. */
export function checksSchema(): object {
  return {
    $schema: 'https://json-schema.org/draft/2020-12/schema',
    $id: 'urn:plystep:schema:checks:1',
    title: 'Options of checkRelief: which rules run, and how',
    type: 'object',
    additionalProperties: false,
    properties: {
      rules: {
        type: 'object',
        additionalProperties: false,
        properties: Object.fromEntries(RULES.map((rule) => [rule.id, ruleSchema(rule)])),
      },
      stages: {
        type: 'object',
        additionalProperties: false,
        properties: Object.fromEntries(STAGE_RULES.map(({ id }) => [id, { enum: LEVELS }])),
      },
      exceptions: { type: 'array', items: { anyOf: [exceptionAt('region'), exceptionAt('at')] } },
      groups: { type: 'array', items: { enum: GROUPS.map(([group]) => group) } },
    },
  };
}

const PLACES = {
  region: { type: 'string' },
  at: { type: 'array', prefixItems: [{ type: 'number' }, { type: 'number' }], minItems: 2, maxItems: 2 },
};

/** One form of exception for each way to name its place. */
const exceptionAt = (place: keyof typeof PLACES): object => ({
  type: 'object',
  additionalProperties: false,
  required: ['rule', 'level', 'reason', place],
  properties: {
    rule: { enum: [...RULES, ...STAGE_RULES].map((rule) => rule.id) },
    ...PLACES,
    level: { enum: LEVELS },
    reason: { type: 'string', minLength: 1 },
  },
});

function ruleSchema({ summary, defaults }: (typeof RULES)[number]): object {
  const options = Object.entries(defaults as Record<string, number | boolean>).map(([name, value]) => [
    name,
    typeof value === 'boolean'
      ? { type: 'boolean', default: value }
      : { type: 'number', minimum: 0, default: value },
  ]);
  return {
    description: summary,
    anyOf: [
      { enum: LEVELS },
      {
        type: 'object',
        additionalProperties: false,
        properties: {
          level: { enum: LEVELS },
          reason: { type: 'string', minLength: 1 },
          ...Object.fromEntries(options),
        },
      },
    ],
  };
}
