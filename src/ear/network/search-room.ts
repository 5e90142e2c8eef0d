/** The mark of no edge and of no word before. */
export const NONE = -1;

/**
 * What a search writes into, kept from one to the next: made anew for each look at a sound, it would be most of the work. Scores
 * are -Infinity, `first` and `second` NONE and `isReached` 0 between searches; the rest is written before it is read. Scores and
 * marks are those on an edge (its phone sounds) and at a node (blank after it), of this step and the next.
 */
export type Room = {
  readonly nodes: number;
  readonly edges: number;
  readonly onEdge: Float64Array;
  readonly nextOnEdge: Float64Array;
  readonly atNode: Float64Array;
  readonly nextAtNode: Float64Array;
  readonly edgePast: Int32Array;
  readonly nextEdgePast: Int32Array;
  readonly nodePast: Int32Array;
  readonly nextNodePast: Int32Array;
  readonly edgeStart: Int32Array;
  readonly nextEdgeStart: Int32Array;
  readonly nodeStart: Int32Array;
  readonly nextNodeStart: Int32Array;
  readonly liveEdges: Int32Array;
  readonly newEdges: Int32Array;
  readonly liveNodes: Int32Array;
  readonly newNodes: Int32Array;
  /** The two best arrivals at a node by different phones. */
  readonly first: Int32Array;
  readonly second: Int32Array;
  readonly reached: Int32Array;
  readonly isReached: Uint8Array;
};

function makeRoom(nodes: number, edges: number): Room {
  const scores = (length: number): Float64Array => new Float64Array(length).fill(-Infinity);
  const marks = (length: number): Int32Array => new Int32Array(length);
  return {
    nodes,
    edges,
    onEdge: scores(edges),
    nextOnEdge: scores(edges),
    atNode: scores(nodes),
    nextAtNode: scores(nodes),
    edgePast: marks(edges),
    nextEdgePast: marks(edges),
    nodePast: marks(nodes),
    nextNodePast: marks(nodes),
    edgeStart: marks(edges),
    nextEdgeStart: marks(edges),
    nodeStart: marks(nodes),
    nextNodeStart: marks(nodes),
    liveEdges: marks(edges),
    newEdges: marks(edges),
    liveNodes: marks(nodes),
    newNodes: marks(nodes),
    first: marks(nodes).fill(NONE),
    second: marks(nodes).fill(NONE),
    reached: marks(nodes),
    isReached: new Uint8Array(nodes),
  };
}

let kept: Room | null = null;
/** Grammars of one phrasebook differ by so much in size. */
const SPARE = 1.2;

/** Room for a search in a graph of so many nodes and edges: the same each time, so one search must end before the next. */
export function roomFor(nodes: number, edges: number): Room {
  if (kept === null || kept.nodes < nodes || kept.edges < edges)
    kept = makeRoom(Math.ceil(nodes * SPARE), Math.ceil(edges * SPARE));
  return kept;
}
