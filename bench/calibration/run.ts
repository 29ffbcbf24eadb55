/** Prints how often what a plan says came true, tenth by tenth. */
import { calibrate } from "./calibrate.js";

const [stays = "300", nights = "100", draws = "2000"] = process.argv.slice(2);
console.log("said    came    nights");
for (const t of calibrate(Number(stays), Number(nights), Number(draws), 1))
  console.log(
    `${(100 * t.said).toFixed(1).padStart(5)}%  ${(100 * t.came).toFixed(1).padStart(5)}%  ${t.nights}`,
  );
