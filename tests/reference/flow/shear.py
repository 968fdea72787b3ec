import numpy as np
from scipy.integrate import solve_ivp
from scipy.optimize import fsolve
def rhs(t,y): return [y[1],y[2],-(2/3)*y[0]*y[2]+(1/3)*y[1]**2]
def miss(x):
    u0,tau=x
    up=solve_ivp(rhs,(0,10),[0,u0,tau],rtol=1e-11,atol=1e-12)
    dn=solve_ivp(rhs,(0,-30),[0,u0,tau],rtol=1e-11,atol=1e-12)
    return [up.y[2,-1]-1, dn.y[1,-1]]
def down(u0,tau):
    s=solve_ivp(rhs,(0,-25),[0,u0,tau],rtol=1e-10,atol=1e-12,events=None)
    return s.y[1,-1] if s.success else np.nan
# family scaled: u0=1 find tau so f'(-inf)=0 ; then scale: f=l F(l eta): f'' scales l^3.. f'=l^2, f''=l^3
lo,hi=0.2,2
def end(tau):
    s=solve_ivp(rhs,(0,-40),[0,1,tau],rtol=1e-11,atol=1e-13,events=[lambda t,y:y[1],lambda t,y:y[1]-3])
    for e,v in zip((0,1),(-1,1)):
        if len(s.t_events[e]): 
            return v
    return s.y[1,-1]
def f(tau):
    ev=lambda t,y:y[2]; ev.terminal=True
    ev2=lambda t,y:y[1]; ev2.terminal=True
    s=solve_ivp(rhs,(0,-60),[0,1,tau],rtol=1e-11,atol=1e-14,events=[ev,ev2])
    return -1 if len(s.t_events[1]) else 1   # u reaches 0 -> too much tau
for _ in range(60):
    mid=(lo+hi)/2
    if f(mid)<0: hi=mid
    else: lo=mid
tau=(lo+hi)/2
up=solve_ivp(rhs,(0,60),[0,1,tau],rtol=1e-12,atol=1e-12)
k=up.y[2,-1]   # F''(inf)
print("tau",tau,"shear inf",k,"ratio f''d", tau/k, "u0", 1/k**(2/3), [up.y[2,i] for i in (-50,-10,-1)])
