/** The workbench's first page: what the tool is for and what it leaves to others. */
export function Page() {
  return (
    <main>
      <h1>Shieldwright</h1>
      <p>
        One model of a stopped tunnel boring machine and of its way out of the ground through an access shaft: every
        mass, lift, load and date derived from it, with the working shown.
      </p>
      <p>
        It informs competent people and replaces none of them. Local codes, the manufacturer’s instructions and licensed
        engineers govern.
      </p>
    </main>
  )
}
