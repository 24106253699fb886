// The layers, checked: shared ← grammar ← server ← client, and inside the server binding ← flow ← proof ← findings ← check ← api.
const ours = '^(shared|grammar|server|client|tests|samples)/';

/** Files under `from` may import only those of our own files that `allowed` names. */
const only = (name, from, allowed, comment) => ({
  name,
  severity: 'error',
  comment,
  from: { path: from },
  to: { path: ours, pathNot: allowed },
});

/** A room of the path engine reads those before it, and what a break is. */
const room = (name, before) =>
  only(
    `the-proof-${name}`,
    `^server/proof/${name}/`,
    `^(shared/|server/flow/|server/proof/((${[...before, name].join('|')})/|(break|collector)\\.))`,
    'The rooms of the path engine: meaning ← slicing ← exploring ← questions ← time.',
  );
const rooms = ['meaning', 'slicing', 'exploring', 'questions', 'time'];

/** A package is imported by its owners alone. */
const belongsTo = (name, module, owners, comment) => ({
  name,
  severity: 'error',
  comment,
  from: { path: '^(shared|grammar|server|client)/', pathNot: owners },
  to: { path: `(node_modules/|^)${module}(/|$)` },
});

module.exports = {
  forbidden: [
    only('shared-is-the-ground', '^shared/', '^shared/', 'The vocabulary knows nobody who speaks it.'),
    only('grammar-knows-text-only', '^grammar/', '^(shared|grammar)/', 'A syntax tree needs no meaning.'),
    only(
      'binding-before-flow',
      '^server/binding/',
      '^(shared/|grammar/(syntax|navigate|parse)\\.|server/(binding|rulebooks)/)',
      'Binding turns syntax into the card model.',
    ),
    only(
      'flow-reads-the-card',
      '^server/flow/',
      '^(shared/|server/flow/)',
      'The flow graph is built from the card model, not from syntax.',
    ),
    only(
      'the-proof-reads-the-flow',
      '^server/proof/',
      '^(shared/|server/(flow|proof)/)',
      'The path engine knows no finding, no feature and no editor.',
    ),
    ...rooms.map((name, at) => room(name, rooms.slice(0, at))),
    only(
      'the-proof-on-demand',
      '^server/proof/on-demand/',
      '^(shared/|server/flow/|server/proof/(?!(prove|gather|carry|counterparts)\\.))',
      'What is worked out when somebody asks for it asks the questions once more.',
    ),
    only(
      'prose-reads-the-card',
      '^server/prose/',
      '^(shared/|server/prose/)',
      'What sentences say is told by the card model.',
    ),
    only(
      'a-finding-reads-facts',
      '^server/findings/',
      '^(shared/|grammar/(syntax|navigate)\\.|server/(binding|proof|findings|prose)/)',
      'A finding reads facts that others made and gives data.',
    ),
    {
      name: 'a-finding-stands-alone',
      severity: 'error',
      comment: 'One finding, one file: none reads another; what several need is in findings/support.',
      from: { path: '^server/findings/', pathNot: '^server/findings/all\\.' },
      to: { path: '^server/findings/', pathNot: '^server/findings/(finding\\.|support/)' },
    },
    only(
      'checking-needs-no-editor',
      '^server/[^/]+$',
      '^(shared/|grammar/|server/(?!lsp/|features/))',
      'Checking works without an editor.',
    ),
    only(
      'features-speak-offsets',
      '^server/features/',
      '^(shared/|grammar/|server/(?!lsp/))',
      'Features answer in offsets; server/lsp turns them into protocol positions.',
    ),
    only(
      'rendering-reads-the-card',
      '^server/render/',
      '^(shared/|server/(render|proof)/)',
      'The same card gives the preview and the export.',
    ),
    only(
      'client-speaks-protocol',
      '^client/(?!command-line)',
      '^(shared/|client/(?!command-line))',
      'The extension and the page know the server only by messages.',
    ),
    only(
      'page-is-a-browser-script',
      '^client/(preview/(?!panel)|work-copy/|report/)',
      '^(shared/|client/(preview/(?!panel)|work-copy/|report/))',
      'What runs in a page runs without VS Code and without Node.',
    ),
    only(
      'command-line-uses-the-api',
      '^client/command-line',
      '^(shared/|server/api\\.|client/command-line/)',
      'The command line uses the server as a library, through its one door.',
    ),
    {
      name: 'nobody-imports-tests',
      severity: 'error',
      from: { path: '^(shared|grammar|server|client)/' },
      to: { path: '^(tests|samples)/' },
    },
    {
      name: 'shared-needs-few-libraries',
      severity: 'error',
      comment:
        'Exact numbers, and the packing that the server writes and the work copy reads, are all that the vocabulary takes from outside.',
      from: { path: '^shared/' },
      to: { path: '(node_modules/|^)', pathNot: '(^shared/|node_modules/(fraction\\.js|fflate)/)' },
    },
    belongsTo(
      'chevrotain-stays-in-grammar',
      'chevrotain',
      '^grammar/(expected|tokens|parser)[./]',
      'The parser toolkit can be replaced without touching meaning.',
    ),
    belongsTo(
      'compromise-stays-in-prose',
      'compromise',
      '^server/prose/english\\.',
      'The library for English can be replaced in one place.',
    ),
    belongsTo(
      'protocol-stays-in-lsp',
      'vscode-languageserver[^/]*',
      '^server/lsp/',
      'One folder knows the Language Server Protocol.',
    ),
    belongsTo(
      'vscode-stays-in-client',
      'vscode(-languageclient)?',
      '^client/(extension/|preview/panel\\.)',
      'One place knows VS Code.',
    ),
    {
      name: 'no-input-output-in-the-core',
      severity: 'error',
      comment: 'Everything but the entry points is a pure function of its inputs.',
      from: {
        path: '^(shared|grammar|server|client)/',
        pathNot: '^(server/lsp/(main|start)\\.|client/(command-line/|extension/|preview/panel\\.))',
      },
      to: { dependencyTypes: ['core'] },
    },
    { name: 'no-circles', severity: 'error', from: {}, to: { circular: true } },
    {
      name: 'no-orphans',
      severity: 'error',
      from: { orphan: true, path: '^(shared|grammar|server|client)/', pathNot: '\\.d\\.ts$' },
      to: {},
    },
  ],
  options: {
    doNotFollow: { path: 'node_modules' },
    parser: 'swc',
    tsPreCompilationDeps: true,
    enhancedResolveOptions: { extensions: ['.ts', '.js', '.json'] },
  },
};
