// Papers.     (papers/papers.tsx)

export function Papers() {
  return (
    <section class="room papers">
      <h2>Papers</h2>
    </section>
  );
}
