"""A configuration of nginx, ready but for the names; the policy has the hashes of the pages of this build."""

from render.hosting import nginx

print(f"```nginx\n{nginx()}```")
