/** Stub. */
export default function KeysPage() {
  return <main className="desk" />;
}
