import js from '@eslint/js';
import tseslint from 'typescript-eslint';

/**
 * The import direction, lowest first: a layer may import itself and what stands above it in this list, never below.
 * Layers on one line do not know each other.
 */
const layers = [
  ['base'],
  ['contract'],
  ['display'],
  ['colour'],
  ['photo', 'window'],
  ['registration', 'preparation'],
  ['reading'],
  ['series'],
  ['compare'],
  ['advice', 'live'],
  ['book'],
  ['sheet'],
  ['engine'],
];
const coreFolders = layers.flat();

/** Import patterns that a file of `layer` must not use. */
function forbiddenFor(layer) {
  const rank = layers.findIndex((row) => row.includes(layer));
  const above = layers.flatMap((row, i) => (i > rank || (i === rank && row.length > 1) ? row : []));
  return above
    .filter((name) => name !== layer)
    .flatMap((name) => [`../${name}`, `../${name}/*`, `../../${name}/*`, `**/core/${name}/*`]);
}

const pureCore = ['node:*', 'fs', 'path', 'electron', 'sharp', '**/node/*', '**/electron/*', '**/renderer/*'];

const layerRules = coreFolders.map((layer) => ({
  files: layer === 'engine' ? ['core/engine.ts'] : [`core/${layer}/**/*.ts`],
  rules: {
    'no-restricted-imports': [
      'error',
      {
        patterns: [
          { group: pureCore, message: 'The engine is pure: no Node, no shell.' },
          ...(forbiddenFor(layer).length
            ? [{ group: forbiddenFor(layer), message: `core/${layer} must not import a layer that builds on it.` }]
            : []),
        ],
      },
    ],
  },
}));

export default tseslint.config(
  { ignores: ['dist/', 'out/', 'node_modules/'] },
  js.configs.recommended,
  ...tseslint.configs.strict,
  ...layerRules,
  {
    files: ['renderer/**/*.ts', 'renderer/**/*.tsx'],
    rules: {
      'no-restricted-imports': [
        'error',
        {
          patterns: [
            {
              regex: '/core/(?!(base|contract|display|live|advice)/)|^node:|^electron$',
              message:
                'The page sees the contract, base, what both faces show alike (display), the live path and advice only.',
            },
          ],
        },
      ],
    },
  },
  {
    files: ['electron/**/*.ts'],
    rules: {
      'no-restricted-imports': [
        'error',
        {
          patterns: [
            {
              regex: '/core/(?!(contract|base|node)/)|/node/(cli|serve)/|/renderer/',
              message: 'The window sees the contract and the host of the verbs, not the engine.',
            },
          ],
        },
      ],
    },
  },
  {
    files: ['samples/**/*.ts'],
    rules: {
      'no-restricted-imports': [
        'error',
        { patterns: [{ group: ['**/core/**'], message: 'Samples know the truth without the engine.' }] },
      ],
    },
  },
  {
    files: ['**/*.ts', '**/*.tsx'],
    rules: {
      '@typescript-eslint/no-explicit-any': 'error',
      '@typescript-eslint/no-non-null-assertion': 'off',
      'no-empty': ['error', { allowEmptyCatch: false }],
      'no-restricted-syntax': ['error', { selector: 'ExportDefaultDeclaration', message: 'Named exports only.' }],
    },
  },
  { files: ['*.config.ts', '*.config.mjs'], rules: { 'no-restricted-syntax': 'off' } },
  { files: ['*.mjs'], languageOptions: { globals: { process: 'readonly', console: 'readonly' } } },
);
