"""A configuration of nginx, ready but for the names; the policy has the hashes of the pages of this build."""

from lpv_site.build.hosting import nginx

print(f"```nginx\n{nginx()}```")
