"""Installation estimates: what will the installation take and cost?"""
