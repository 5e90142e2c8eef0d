/** Stub. */
export default function ComparePage() {
  return <main className="desk" />;
}
