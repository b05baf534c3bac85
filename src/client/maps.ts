import { keepState, readState } from "./state.ts";

/**
 * The maps of a field switch by radio buttons, without a script. With it, the address keeps what is shown, so that a link or the
 * way back shows it again, and the pointer may be drawn along the years.
 */
const atlas = document.querySelector<HTMLElement>(".atlas");

const chosen = (name: string): string => atlas?.querySelector<HTMLInputElement>(`input[name="${name}"]:checked`)?.value ?? "";

const choose = (name: string, value: string | undefined): void => {
  const radio = [...(atlas?.querySelectorAll<HTMLInputElement>(`input[name="${name}"]`) ?? [])].find((each) => each.value === value);
  if (radio) radio.checked = true;
};

const keep = (): void => keepState({ map: chosen("map"), year: chosen("year") });

const restore = (): void => {
  const state = readState(location.hash);
  choose("map", state.get("map"));
  choose("year", state.get("year"));
};

if (atlas) {
  restore();
  addEventListener("hashchange", restore);
  atlas.addEventListener("change", keep);
  for (const label of atlas.querySelectorAll<HTMLLabelElement>(".mapyears > label")) {
    label.addEventListener("pointerenter", ({ buttons, pointerType }) => {
      if (buttons !== 1 || pointerType !== "mouse" || !(label.control instanceof HTMLInputElement)) return;
      label.control.checked = true;
      keep();
    });
  }
}
