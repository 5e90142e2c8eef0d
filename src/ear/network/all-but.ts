import type { PhoneGraph } from './phone-graph.ts';
import type { PhonePath } from './viterbi.ts';

/**
 * The graph of every phrase but the one of this path, so that one more search finds the second best whatever the length of the
 * best. The states that the path passes are laid once more, and the search starts in these: where it leaves the path it goes on
 * in the graph as it was, and may come back to the same words; where it does not, it may not end where the path ends.
 */
export function allBut(graph: PhoneGraph, path: PhonePath): PhoneGraph {
  const { firstEdge, to, phone, word, arc, cost, exit, length } = graph;
  const along = [graph.start, ...path.words.map((each) => each.leadsTo)];
  const copied: number[] = [];
  const copyOf = along.map((state) => layTree(graph, state, copied));
  const placeOf = new Map(copied.map((node, index) => [node, graph.nodes + index]));

  const edges: { readonly old: number; readonly to: number }[] = [];
  const firstOfCopy: number[] = [];
  // Which state of the path the copied nodes belong to, as they come.
  let step = -1;
  copied.forEach((node, index) => {
    if (index === copyOf[step + 1]) step += 1;
    for (let edge = firstEdge[node]!; edge < firstEdge[node + 1]!; edge += 1) {
      const onPath = word[edge]! >= 0 && arc[edge] === path.words[step]?.arc;
      const inner = word[edge]! < 0;
      const next = onPath ? graph.nodes + copyOf[step + 1]! : inner ? placeOf.get(to[edge]!)! : to[edge]!;
      edges.push({ old: edge, to: next });
    }
    firstOfCopy.push(to.length + edges.length);
  });
  const onlyEnd = copyOf.at(-1);
  const withCopied = <T extends Numbers>(ofEdges: T): T =>
    joined(
      ofEdges,
      edges.map(({ old }) => ofEdges[old]!),
    );
  return {
    words: graph.words,
    nodes: graph.nodes + copied.length,
    start: graph.nodes,
    betweenWords: joined(
      graph.betweenWords,
      copied.map((node) => graph.betweenWords[node]!),
    ),
    exit: joined(
      exit,
      copied.map((node, index) => (index === onlyEnd ? Infinity : exit[node]!)),
    ),
    firstEdge: joined(firstEdge, firstOfCopy),
    to: joined(
      to,
      edges.map((edge) => edge.to),
    ),
    phone: withCopied(phone),
    word: withCopied(word),
    arc: withCopied(arc),
    cost: withCopied(cost),
    length: withCopied(length),
  };
}

/** Adds a state and what lies inside the words that begin there to `nodes`; gives where in it the state came. */
function layTree({ firstEdge, to, word }: PhoneGraph, state: number, nodes: number[]): number {
  const at = nodes.push(state) - 1;
  for (let next = at; next < nodes.length; next += 1) {
    const node = nodes[next]!;
    for (let edge = firstEdge[node]!; edge < firstEdge[node + 1]!; edge += 1) if (word[edge]! < 0) nodes.push(to[edge]!);
  }
  return at;
}

type Numbers = Int32Array | Uint8Array | Float32Array;

function joined<T extends Numbers>(head: T, tail: readonly number[]): T {
  const whole = new (head.constructor as new (length: number) => T)(head.length + tail.length);
  whole.set(head);
  whole.set(tail, head.length);
  return whole;
}
