import type { PhoneGraph } from './phone-graph.ts';
import { NONE, roomFor } from './search-room.ts';

/** What the network heard: log probabilities of blank and the phones, `classes` for each of `steps`. */
export type PhoneScores = { readonly log: Float32Array; readonly steps: number; readonly classes: number };

/** A word on the best path; `from` and `to` are the steps of its first and last phone, `leadsTo` the node after it. */
export type PathWord = {
  readonly word: number;
  readonly arc: number;
  readonly leadsTo: number;
  readonly from: number;
  readonly to: number;
  readonly phones: number;
};
/** A way through the graph. `weights` is what the grammar's own weights took from its score; below zero they added to it. */
export type PhonePath = { readonly score: number; readonly weights: number; readonly words: readonly PathWord[] };

export type Search = {
  /** Paths worse than the best by more than this (natural logarithm) are dropped. */
  readonly beam: number;
  /** Of more sounding phones than this at once only the likeliest are gone on with, so that noise costs no more than speech. */
  readonly most: number;
  /** What a word costs, so that many short ones do not stand in for few long ones. */
  readonly wordCost: number;
  /** How much the grammar's own weights count. */
  readonly weightScale: number;
  /** What a step without a phone costs: the network is too ready to hear none in a voice that it does not know. */
  readonly blankCost: number;
};

/**
 * The best path of a phone graph through what the network heard, in the manner of connectionist temporal classification: a phone
 * lasts one step or more, blanks may stand between phones and must between two that are alike. Null when nothing reaches an end.
 */
export function bestPath(graph: PhoneGraph, heard: PhoneScores, search: Search): PhonePath | null {
  const { nodes, start: begin, firstEdge, to, phone, word, arc, cost, exit, betweenWords } = graph;
  const { log, steps, classes } = heard;
  const room = roomFor(nodes, to.length);
  let { onEdge, nextOnEdge, atNode, nextAtNode, edgePast, nextEdgePast, nodePast, nextNodePast } = room;
  let { liveEdges, newEdges, liveNodes, newNodes } = room;
  const { edgeStart, nodeStart, nextEdgeStart, nextNodeStart, first, second, reached, isReached } = room;
  let [edgesLive, nodesLive] = [0, 0];
  const list = (): number[] => [];
  const record = { word: list(), before: list(), from: list(), end: list(), edge: list() };

  atNode[begin] = 0;
  nodePast[begin] = NONE;
  liveNodes[nodesLive++] = begin;
  for (let step = 0; step < steps; step += 1) {
    const row = step * classes;
    const blank = log[row]! - search.blankCost;
    let best = -Infinity;
    for (let at = 0; at < edgesLive; at += 1) best = Math.max(best, onEdge[liveEdges[at]!]!);
    for (let at = 0; at < nodesLive; at += 1) best = Math.max(best, atNode[liveNodes[at]!]!);
    const crowded = edgesLive > search.most;
    const floor = crowded ? crowdedFloor(liveEdges.subarray(0, edgesLive), onEdge, best, search) : best - search.beam;

    let [edgesNew, nodesNew, reachedNow] = [0, 0, 0];
    for (let at = 0; at < edgesLive; at += 1) {
      const edge = liveEdges[at]!;
      const score = onEdge[edge]!;
      if (score < floor) continue;
      const node = to[edge]!;
      if (isReached[node] === 0) {
        isReached[node] = 1;
        reached[reachedNow++] = node;
        first[node] = edge;
      } else if (phone[edge] === phone[first[node]!]) {
        if (score > onEdge[first[node]!]!) first[node] = edge;
      } else if (score > onEdge[first[node]!]!) {
        second[node] = first[node]!;
        first[node] = edge;
      } else if (second[node] === NONE || score > onEdge[second[node]!]!) second[node] = edge;
      // The same phone goes on.
      nextOnEdge[edge] = score + log[row + phone[edge]!]!;
      nextEdgePast[edge] = edgePast[edge]!;
      nextEdgeStart[edge] = edgeStart[edge]!;
      newEdges[edgesNew++] = edge;
    }
    for (let at = 0; at < nodesLive; at += 1) {
      const node = liveNodes[at]!;
      if (atNode[node]! < floor) continue;
      nextAtNode[node] = atNode[node]! + blank;
      nextNodePast[node] = nodePast[node]!;
      nextNodeStart[node] = nodeStart[node]!;
      newNodes[nodesNew++] = node;
      if (isReached[node] === 0) {
        isReached[node] = 1;
        reached[reachedNow++] = node;
      }
    }
    for (let at = 0; at < reachedNow; at += 1) {
      const node = reached[at]!;
      const lead = first[node]!;
      const other = second[node]!;
      const rest = atNode[node]! >= floor ? atNode[node]! : -Infinity;
      if (lead !== NONE) {
        const score = onEdge[lead]! + blank;
        if (nextAtNode[node] === -Infinity) newNodes[nodesNew++] = node;
        if (score > nextAtNode[node]!) {
          nextAtNode[node] = score;
          nextNodePast[node] = edgePast[lead]!;
          nextNodeStart[node] = edgeStart[lead]!;
        }
      }
      for (let edge = firstEdge[node]!; edge < firstEdge[node + 1]!; edge += 1) {
        const sound = phone[edge]!;
        const from = lead !== NONE && phone[lead] !== sound ? lead : other !== NONE && phone[other] !== sound ? other : NONE;
        const byEdge = from !== NONE && onEdge[from]! > rest;
        const before = byEdge ? onEdge[from]! : rest;
        if (before === -Infinity) continue;
        const ends = word[edge]! !== NONE;
        const score = before + log[row + sound]! - (ends ? cost[edge]! * search.weightScale + search.wordCost : 0);
        if (score < floor || score <= nextOnEdge[edge]!) continue;
        if (nextOnEdge[edge] === -Infinity) newEdges[edgesNew++] = edge;
        nextOnEdge[edge] = score;
        const past = byEdge ? edgePast[from]! : nodePast[node]!;
        const start = betweenWords[node] === 1 ? step : byEdge ? edgeStart[from]! : nodeStart[node]!;
        nextEdgeStart[edge] = start;
        if (ends) {
          nextEdgePast[edge] = record.word.push(word[edge]!) - 1;
          record.before.push(past);
          record.from.push(start);
          record.end.push(step);
          record.edge.push(edge);
        } else nextEdgePast[edge] = past;
      }
    }
    for (let at = 0; at < reachedNow; at += 1) {
      const node = reached[at]!;
      first[node] = second[node] = NONE;
      isReached[node] = 0;
    }
    for (let at = 0; at < edgesLive; at += 1) onEdge[liveEdges[at]!] = -Infinity;
    for (let at = 0; at < nodesLive; at += 1) atNode[liveNodes[at]!] = -Infinity;
    [onEdge, nextOnEdge] = [nextOnEdge, onEdge];
    [atNode, nextAtNode] = [nextAtNode, atNode];
    [edgePast, nextEdgePast] = [nextEdgePast, edgePast];
    [nodePast, nextNodePast] = [nextNodePast, nodePast];
    [liveEdges, newEdges] = [newEdges, liveEdges];
    [liveNodes, newNodes] = [newNodes, liveNodes];
    [edgesLive, nodesLive] = [edgesNew, nodesNew];
    for (let at = 0; at < edgesLive; at += 1) edgeStart[liveEdges[at]!] = nextEdgeStart[liveEdges[at]!]!;
    for (let at = 0; at < nodesLive; at += 1) nodeStart[liveNodes[at]!] = nextNodeStart[liveNodes[at]!]!;
  }

  let score = -Infinity;
  let past = NONE;
  const offer = (before: number, node: number, reaching: number): void => {
    const whole = before - exit[node]! * search.weightScale;
    if (reaching !== NONE && whole > score) [score, past] = [whole, reaching];
  };
  for (let at = 0; at < nodesLive; at += 1) {
    const node = liveNodes[at]!;
    if (betweenWords[node] === 1) offer(atNode[node]!, node, nodePast[node]!);
    atNode[node] = -Infinity;
  }
  for (let at = 0; at < edgesLive; at += 1) {
    const edge = liveEdges[at]!;
    if (word[edge] !== NONE) offer(onEdge[edge]!, to[edge]!, edgePast[edge]!);
    onEdge[edge] = -Infinity;
  }
  if (score === -Infinity) return null;
  const words: PathWord[] = [];
  let weights = exit[to[record.edge[past]!]!]! * search.weightScale;
  for (let at = past; at !== NONE; at = record.before[at]!) {
    const edge = record.edge[at]!;
    const [from, last] = [record.from[at]!, record.end[at]!];
    weights += cost[edge]! * search.weightScale;
    words.push({ word: record.word[at]!, arc: arc[edge]!, leadsTo: to[edge]!, from, to: last, phones: graph.length[edge]! });
  }
  return { score, weights, words: words.reverse() };
}

/** How finely the beam is divided where it holds too many. */
const SLICES = 64;

/** A score that at most `most` of these edges reach, save for those that share a slice of the beam with the last of them. */
function crowdedFloor(edges: Int32Array, scores: Float64Array, best: number, { beam, most }: Search): number {
  const slice = beam / SLICES;
  const held = new Int32Array(SLICES + 1);
  for (const edge of edges) {
    const at = Math.floor((best - scores[edge]!) / slice);
    if (at < SLICES) held[at]! += 1;
  }
  let upTo = 0;
  for (let sum = held[0]!; upTo < SLICES - 1 && sum + held[upTo + 1]! <= most; upTo += 1) sum += held[upTo + 1]!;
  return best - (upTo + 1) * slice;
}

/** The score of the likeliest outputs one by one: what any speech, or none, would get. */
export function freeScore({ log, steps, classes }: PhoneScores, blankCost: number): number {
  let sum = 0;
  for (let step = 0; step < steps; step += 1) {
    let best = log[step * classes]! - blankCost;
    for (let at = step * classes + 1; at < (step + 1) * classes; at += 1) best = Math.max(best, log[at]!);
    sum += best;
  }
  return sum;
}
