import { launch, pause, profile, slow4G, tab } from "./phone.mjs";
import { readFileSync } from "node:fs";
const links = JSON.parse(readFileSync("/tmp/b9/links.json","utf8"));
const site = process.argv[2]; const frag = process.argv[3]==="ref" ? links.reference?.own ?? links.Reference?.Own : process.argv[3];
const line = process.argv[4]==="fast"?undefined:slow4G; const again = process.argv[5]==="again";
const { home, remove } = await profile();
let browser = await launch(home, line);
for (let k=0;k<(again?3:1);k++){
if(k===2){await browser.close();browser=await launch(home,line)}
const page = await tab(browser, { cpu: 4, line });; page.on("console",(m)=>console.log("console",m.text(), m.location()?.url)); page.on("requestfailed",(r)=>console.log("failed",r.url(), r.failure()?.errorText));
await page.evaluateOnNewDocument(() => {
  window.zz = { shifts: [], paints: [], lcp: [], marks: [], long: [] };
  new PerformanceObserver((l) => { for (const e of l.getEntries()) zz.shifts.push([Math.round(e.startTime), e.value.toFixed(4), e.hadRecentInput, ...e.sources.map((s) => `${s.node?.nodeName}#${s.node?.id ?? ""}.${s.node?.className ?? ""} ${s.previousRect.y|0},${s.previousRect.height|0}->${s.currentRect.y|0},${s.currentRect.height|0}`)]); }).observe({ type: "layout-shift", buffered: true });
  new PerformanceObserver((l) => { for (const e of l.getEntries()) zz.paints.push([e.name, Math.round(e.startTime)]); }).observe({ type: "paint", buffered: true });
  new PerformanceObserver((l) => { for (const e of l.getEntries()) zz.lcp.push([Math.round(e.startTime), e.element?.nodeName, e.size]); }).observe({ type: "largest-contentful-paint", buffered: true });
  new PerformanceObserver((l) => { for (const e of l.getEntries()) zz.long.push([Math.round(e.startTime), Math.round(e.duration)]); }).observe({ type: "longtask", buffered: true });
  let m={}; const tick = () => { const f=document.getElementById("first-line"); const mark=(n)=>{ if(!m[n]){m[n]=1; zz.marks.push([n, Math.round(performance.now())]);} }; if (f && !f.hidden && f.textContent) mark("line"); if (document.getElementById("next")?.querySelector("*")&&document.getElementById("days")) mark("whole"); requestAnimationFrame(tick); }; requestAnimationFrame(tick);
});
const t0=Date.now();
await page.goto(site + "#" + frag, { waitUntil: "domcontentloaded", timeout: 120000 });
await page.waitForFunction(() => zz.marks.some(([n]) => n === "whole"), { timeout: 60000, polling: 250 }).catch(()=>0); await page.screenshot({path:"/tmp/s9/zz.png"}); console.log(await page.evaluate(()=>[document.querySelector("#trouble")?.innerText, document.querySelector("#waiting")?.innerText, document.title, !!document.getElementById("next"), !!document.getElementById("days")]));
await pause(1500);
const r = await page.evaluate(() => ({ ...zz, res: performance.getEntriesByType("resource").map((e) => [e.name.split("/").pop().slice(0, 24), Math.round(e.startTime), Math.round(e.responseEnd), e.transferSize]) }));
console.log(["cold","again","restart"][k]);console.log(JSON.stringify(r, null, 0).replaceAll('"shifts', '\n"shifts').replaceAll('"res"', '\n"res"').replaceAll('"paints"','\n"paints"').replaceAll('"marks"','\n"marks"').replaceAll('"long"','\n"long"').replaceAll('"lcp"','\n"lcp"'), page.faults);
if(again){await page.session.send("Emulation.setCPUThrottlingRate", { rate: 1 });await pause(1000);await page.waitForNetworkIdle({idleTime:4000,timeout:120000});await pause(3000);await page.close();}
}
await browser.close(); await remove();
