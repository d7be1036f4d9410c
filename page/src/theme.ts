// Light or dark: as the system says, or as the person chose.     (theme.ts)
import { computed, effect, signal } from "@preact/signals";

export type Theme = "system" | "light" | "dark";

const KEY = "takeup.theme";
const dark = matchMedia("(prefers-color-scheme: dark)");
const systemDark = signal(dark.matches);

function kept(): Theme {
  const words = localStorage.getItem(KEY);
  return words === "light" || words === "dark" ? words : "system";
}

export const theme = signal<Theme>(kept());
/** The theme as it is seen. */
export const seen = computed<"light" | "dark">(() => {
  if (theme.value !== "system") return theme.value;
  return systemDark.value ? "dark" : "light";
});

/** Begin to show the theme, and to follow the system where that is chosen. */
export function startTheme(): void {
  dark.addEventListener("change", () => {
    systemDark.value = dark.matches;
  });
  effect(() => {
    document.documentElement.dataset["theme"] = seen.value;
    localStorage.setItem(KEY, theme.value);
  });
}
