// A link into a folded table unfolds it.
export function unfoldTarget() {
  const target = location.hash && document.getElementById(decodeURIComponent(location.hash.slice(1)));
  if (!target) return;
  for (let each = target; each; each = each.parentElement) {
    if (each.tagName === "DETAILS") each.open = true;
  }
  target.scrollIntoView();
  const field = target.querySelector("input:not([type=hidden]), select, textarea");
  if (field) field.focus({ preventScroll: true });
}
