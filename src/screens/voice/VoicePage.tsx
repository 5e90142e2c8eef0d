/** Stub. */
export default function VoicePage() {
  return <main className="desk" />;
}
