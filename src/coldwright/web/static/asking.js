// Where a figure comes from, in a dialog; without it the same matter is a page.
export function startAsking(dialog) {
  const matter = document.getElementById("asked");
  let asked = null;
  document.addEventListener("click", async (event) => {
    const link = event.target.closest("a.ask");
    if (!link || event.ctrlKey || event.metaKey || event.shiftKey) return;
    event.preventDefault();
    if (!dialog.contains(link)) asked = link;
    const address = new URL(link.href);
    address.searchParams.set("part", "1");
    try {
      const answer = await fetch(address);
      if (!answer.ok) throw new Error("not there");
      matter.innerHTML = await answer.text();
    } catch {
      matter.textContent = "This cannot be shown now: the connection is lost or the sheet is old.";
    }
    const shut = document.createElement("button");
    shut.textContent = "Close";
    shut.addEventListener("click", () => dialog.close());
    matter.append(shut);
    if (!dialog.open) dialog.showModal();
    shut.focus();
  });
  dialog.addEventListener("close", () => asked?.isConnected && asked.focus());
}
