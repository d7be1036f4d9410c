// Proposals.     (proposals/proposals.tsx)

export function Proposals() {
  return (
    <section class="room proposals">
      <h2>Proposals</h2>
    </section>
  );
}
