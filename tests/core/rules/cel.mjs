// Judges what cel_test.cpp wrote with software of others: node cel.mjs LOOKS, beside an installed @marcbachmann/cel-js.
// True must be true, False false, Unknown an error.
import { createReadStream } from "node:fs"
import { createInterface } from "node:readline"
import { Environment } from "@marcbachmann/cel-js"

// Whole numbers of JSON are int there, not double.
const whole = (value) =>
  typeof value === "number" ? BigInt(value)
  : Array.isArray(value) ? value.map(whole)
  : value && typeof value === "object" ? Object.fromEntries(Object.entries(value).map(([key, one]) => [key, whole(one)]))
  : value

const environment = new Environment({ unlistedVariablesAreDyn: true })
let expressions = []
const counts = { "-1": 0, 0: 0, 1: 0 }
let different = 0
for await (const line of createInterface({ input: createReadStream(process.argv[2]) })) {
  const look = JSON.parse(line)
  if (look.expressions) {
    expressions = look.expressions.map((text) => ({ text, judge: environment.parse(text) }))
    continue
  }
  const maps = whole(look.maps)
  expressions.forEach(({ text, judge }, i) => {
    let verdict = 0
    let why = ""
    try {
      const answer = judge(maps)
      verdict = answer === true ? 1 : answer === false ? -1 : NaN
    } catch (error) {
      why = error.message
    }
    ++counts[look.verdicts[i]]
    if (verdict !== look.verdicts[i] && ++different <= 5) {
      console.error(`judged ${look.verdicts[i]}, by CEL ${verdict} ${why}: ${text}\n  ${JSON.stringify(look.maps)}`)
    }
  })
}
const all = counts["-1"] + counts[0] + counts[1]
console.log(`${all} verdicts: ${counts["-1"]} false, ${counts[0]} unknown, ${counts[1]} true; ${different} judged otherwise by CEL`)
process.exit(all > 10000 && different === 0 && Object.values(counts).every((one) => one > 500) ? 0 : 1)
