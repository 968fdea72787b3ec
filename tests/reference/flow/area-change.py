"""Makes diffuser.csv and contraction.csv from printed tables of a hydraulics handbook.

    pip install fluids==1.3.1
    python3 area-change.py

I. E. Idelchik, Handbook of Hydraulic Resistance. Diffusers: the table of diagram 5-2 (expansion loss of a conical diffuser,
friction apart) as the library fluids carries it. Sudden contraction: the factor a of diagram 4-9, K = 0.5 a, as digitised in
open-source code for duct losses (to three digits). Gradual contraction: Crane TP 410 as fluids evaluates it.
"""
from pathlib import Path

from fluids import fittings

HERE = Path(__file__).parent

with open(HERE / "diffuser.csv", "w") as out:
    out.write("# Loss of a conical diffuser over the dynamic pressure before it: Idelchik, diagram 5-2, two digits; by area-change.py.\n")
    out.write("angle_deg,area_ratio,loss_coefficient\n")
    for ratio, row in zip(fittings.diffuser_conical_Idelchik_A_ratios, fittings.diffuser_conical_Idelchik_data):
        for angle, K in zip(fittings.diffuser_conical_Idelchik_angles, row):
            out.write(f"{angle},{ratio},{K}\n")

SUDDEN = {0.0: 1.0, 0.2: 0.85, 0.4: 0.68, 0.6: 0.503, 0.8: 0.3, 0.9: 0.178, 1.0: 0.0}
with open(HERE / "contraction.csv", "w") as out:
    out.write("# Loss of a contraction over the dynamic pressure after it, by area-change.py. Angle 180: sudden, Idelchik,\n")
    out.write("# diagram 4-9. Others: Crane TP 410, area ratio 0.01 (where its factor 1 - ratio hardly matters).\n")
    out.write("angle_deg,area_ratio,loss_coefficient\n")
    for ratio, a in SUDDEN.items():
        out.write(f"180,{ratio},{0.5 * a:.4f}\n")
    for angle in (5, 10, 20, 30, 40, 60, 90, 120, 150):
        out.write(f"{angle},0.01,{fittings.contraction_conical(Di1=1, Di2=0.1, angle=angle, method='Crane'):.6f}\n")
