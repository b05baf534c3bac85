/**
 * Everything that can be focused and does not show it by an outline of 2 px or more, or cannot be focused after all. To be run in
 * a browser after a press of Tab: from then on the browser shows where the focus stands.
 */
export const unseenFocus = (): string[] =>
  [...document.querySelectorAll<HTMLElement>("a[href], button, summary, input, select, [tabindex='0']")]
    .filter((e) => e.checkVisibility({ visibilityProperty: true }))
    .filter((e) => {
      e.focus();
      // A radio button that is drawn as its label shows the focus there.
      const { outlineStyle, outlineWidth } = getComputedStyle(e.matches("input[type=radio]") ? e.nextElementSibling! : e);
      return document.activeElement !== e || outlineStyle === "none" || parseFloat(outlineWidth) < 2;
    })
    .map((e) => e.outerHTML.slice(0, 80));
