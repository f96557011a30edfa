read dial-four --fault igniter-bake:aged --test 'look glow-no-flame @ 0s oven.mode=bake; 3min' --test 'look no-glow @ 0s oven.mode=bake; 3min'
