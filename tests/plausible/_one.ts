import { drawnSetup } from "./drawnSetup.ts"; import { readSetup } from "../../src/setup/readSetup.ts"; import { Line } from "../../src/acoustics/duct/line.ts";
for (const s of process.argv.slice(2).map(Number)) { const f=drawnSetup(s); let setup; try { setup=readSetup(f);} catch(e){console.log(s,String(e));continue;}
 const c=process.cpuUsage(); console.log(s, f.model, ["mouthpiece","leadpipe","body"].map(p=>{const q=(setup as any)[p].profileMm; let up=0; for(let i=1;i<q.length;i++) up+=Math.abs(Math.log(q[i][1]/q[i-1][1])); return [q.length, q[q.length-1][0].toFixed(0), Math.min(...q.map((x:any)=>x[1])).toFixed(1), Math.max(...q.map((x:any)=>x[1])).toFixed(1), up.toFixed(1)].join("/")}).join("  "), JSON.stringify(f.air).slice(0,60), f.receiver.mouthDiameter.toFixed(1));
 const l=new Line(setup); console.log("sections",l.sections, process.cpuUsage(c).user/1e6);
}
