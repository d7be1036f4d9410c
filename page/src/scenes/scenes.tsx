// Scenes.     (scenes/scenes.tsx)

export function Scenes() {
  return (
    <section class="room scenes">
      <h2>Scenes</h2>
    </section>
  );
}
