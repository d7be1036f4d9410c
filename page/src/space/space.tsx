// The line in space.     (space/space.tsx)

export function Space() {
  return (
    <section class="room space">
      <h2>The line in space</h2>
    </section>
  );
}
