import type { Flow, Happening, Move } from './graph.ts';

/** The graph as a mermaid chart, for tests and bug reports. */
export function chart(flow: Flow): string {
  const lines = flow.moves.map((move) => `  ${name(flow, move.from)} -->${label(move)} ${name(flow, move.to)}`);
  return ['flowchart TD', ...lines].join('\n');
}

function name(flow: Flow, point: number): string {
  if (point === flow.start) return `p${point}([start])`;
  return flow.from[point]?.length === 0 ? `p${point}([end])` : `p${point}`;
}

function label({ happening, words, time }: Move): string {
  const lasts = time.most > 0 ? ` ${time.least / 1e6} to ${time.most / 1e6} s` : '';
  const text = `${describe(happening)}${words ? ` ${words}` : ''}${lasts}`.trim();
  return text === '' ? '' : `|"${text.replaceAll('"', "'")}"|`;
}

function describe(happening: Happening): string {
  switch (happening.type) {
    case 'pass':
      return '';
    case 'set':
    case 'begin':
    case 'end':
      return `${happening.type} ${happening.item.name} ${happening.item.kind.states[happening.state]?.name}`;
    case 'assume':
      return happening.holds ? 'holds' : 'fails';
    default:
      return happening.type;
  }
}
